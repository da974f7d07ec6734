using System.Reflection;
using System.Reflection.Emit;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;

namespace Rootgap.Tests.Conventions;

/// <summary>What the compiled types of an assembly use, as the compiler has bound it: signatures, locals and every instruction.</summary>
internal static class SymbolUses
{
    private const BindingFlags Own = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    private static readonly Dictionary<short, OpCode> Codes = typeof(OpCodes).GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => (OpCode)f.GetValue(null)!).ToDictionary(c => c.Value);

    /// <summary>The types that a type uses; itself and parts of generic ones among them.</summary>
    public static IEnumerable<Type> Of(Type type)
    {
        var seen = new HashSet<Type>();
        IEnumerable<Type?> bound =
        [
            type.BaseType,
            .. type.GetInterfaces(),
            .. type.GetFields(Own).Select(f => f.FieldType),
            .. type.GetMethods(Own).Cast<MethodBase>().Concat(type.GetConstructors(Own)).SelectMany(Of),
        ];
        foreach (var used in bound)
            Add(used, seen);
        return seen;
    }

    /// <summary>Methods of other assemblies that an assembly calls: type, name, and how many arguments it takes.</summary>
    public static IEnumerable<(string Type, string Member, int Arguments)> Outside(Assembly assembly)
    {
        using var file = new PEReader(File.OpenRead(assembly.Location));
        var reader = file.GetMetadataReader();
        foreach (var handle in reader.MemberReferences)
        {
            var member = reader.GetMemberReference(handle);
            if (member.Parent.Kind != HandleKind.TypeReference || member.GetKind() != MemberReferenceKind.Method)
                continue;
            var type = reader.GetTypeReference((TypeReferenceHandle)member.Parent);
            var signature = reader.GetBlobReader(member.Signature);
            if (signature.ReadSignatureHeader().IsGeneric)
                signature.ReadCompressedInteger();
            yield return ($"{reader.GetString(type.Namespace)}.{reader.GetString(type.Name)}", reader.GetString(member.Name), signature.ReadCompressedInteger());
        }
    }

    private static IEnumerable<Type?> Of(MethodBase method)
    {
        foreach (var parameter in method.GetParameters())
            yield return parameter.ParameterType;
        yield return (method as MethodInfo)?.ReturnType;
        if (method.GetMethodBody() is not { } body || body.GetILAsByteArray() is not { } code)
            yield break;
        foreach (var local in body.LocalVariables)
            yield return local.LocalType;
        var (ofType, ofMethod) = (method.DeclaringType!.IsGenericType ? method.DeclaringType.GetGenericArguments() : null, method.IsGenericMethod ? method.GetGenericArguments() : null);
        foreach (var token in Tokens(code))
        {
            var member = method.Module.ResolveMember(token, ofType, ofMethod);
            yield return member as Type ?? member?.DeclaringType;
            foreach (var argument in (member as MethodInfo)?.GetGenericArguments() ?? [])
                yield return argument;
            if (member is MethodInfo { ReturnType: var result })
                yield return result;
            if (member is FieldInfo { FieldType: var kind })
                yield return kind;
        }
    }

    // Instructions and their operands: ECMA-335, partition III.
    private static IEnumerable<int> Tokens(byte[] code)
    {
        for (var at = 0; at < code.Length;)
        {
            var op = code[at] == 0xFE ? Codes[unchecked((short)(0xFE00 | code[at + 1]))] : Codes[code[at]];
            at += op.Size;
            if (op.OperandType is OperandType.InlineField or OperandType.InlineMethod or OperandType.InlineTok or OperandType.InlineType)
                yield return BitConverter.ToInt32(code, at);
            at += op.OperandType switch
            {
                OperandType.InlineNone => 0,
                OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
                OperandType.InlineVar => 2,
                OperandType.InlineI8 or OperandType.InlineR => 8,
                OperandType.InlineSwitch => 4 + (4 * BitConverter.ToInt32(code, at)),
                _ => 4,
            };
        }
    }

    private static void Add(Type? type, HashSet<Type> seen)
    {
        if (type is null || type.IsGenericParameter || !seen.Add(type))
            return;
        Add(type.GetElementType(), seen);
        foreach (var argument in type.GenericTypeArguments)
            Add(argument, seen);
    }
}
