using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace Rootgap.Mutations;

/// <summary>One small change of the engine's text: an expression, and what stands in its place.</summary>
/// <param name="File">Relative to the repository.</param>
/// <param name="Span">Where the expression stands in the file.</param>
internal sealed record Mutation(string File, Microsoft.CodeAnalysis.Text.TextSpan Span, int Line, string Was, string Is)
{
    public override string ToString() => $"{File}:{Line}: {Short(Was)} => {Short(Is)}";

    private static string Short(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)) is { Length: > 150 } longer ? longer[..150] + "..." : string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>All small changes that a file offers.</summary>
    public static IEnumerable<Mutation> Of(string file, string text)
    {
        var root = Parse(text);
        foreach (var node in root.DescendantNodes().OfType<ExpressionSyntax>().Where(IsOpen))
        {
            foreach (var changed in Changes(node))
                yield return new(file, node.Span, LineOf(node), node.ToString(), changed);
        }
    }

    /// <summary>The change that a person has written down: the expression as it stands in the file, once.</summary>
    /// <exception cref="FormatException">The expression is not there, or more than once.</exception>
    public static Mutation Named(string file, string text, string was, string now)
    {
        var found = Parse(text).DescendantNodes().OfType<ExpressionSyntax>().Where(n => n.ToString() == was).ToList();
        return found is [var node, ..] && found.TrueForAll(n => n.Span == node.Span)
            ? new(file, node.Span, LineOf(node), was, now)
            : throw new FormatException($"{file}: the expression \"{was}\" stands there {found.Count} times.");
    }

    private static CompilationUnitSyntax Parse(string text) => CSharpSyntaxTree.ParseText(text, new(LanguageVersion.Preview)).GetCompilationUnitRoot();

    private static int LineOf(SyntaxNode node) => node.GetLocation().GetLineSpan().StartLinePosition.Line + 1;

    /// <summary>Whether a choice can be written in the expression's place: not a constant, nothing declared inside it, and a value that is used.</summary>
    private static bool IsOpen(ExpressionSyntax node) =>
        node.Parent is not (ExpressionStatementSyntax or NameColonSyntax)
        && !node.Ancestors().Any(a => a is AttributeSyntax or ParameterSyntax or PatternSyntax or CaseSwitchLabelSyntax or EnumMemberDeclarationSyntax or InterpolationFormatClauseSyntax or ExpressionElementSyntax { Parent: CollectionExpressionSyntax { Parent: AttributeArgumentSyntax } }
            || a is FieldDeclarationSyntax f && f.Modifiers.Any(SyntaxKind.ConstKeyword) || a is LocalDeclarationStatementSyntax { IsConst: true })
        && !node.DescendantNodesAndSelf().Any(d => d is DeclarationExpressionSyntax or SingleVariableDesignationSyntax or ThrowExpressionSyntax or RefExpressionSyntax or StackAllocArrayCreationExpressionSyntax or AwaitExpressionSyntax);

    private static IEnumerable<string> Changes(ExpressionSyntax node)
    {
        switch (node)
        {
            case LiteralExpressionSyntax { RawKind: (int)SyntaxKind.NumericLiteralExpression } number:
                return Number(number.Token.Text);
            case LiteralExpressionSyntax { RawKind: (int)SyntaxKind.TrueLiteralExpression }:
                return ["false"];
            case LiteralExpressionSyntax { RawKind: (int)SyntaxKind.FalseLiteralExpression }:
                return ["true"];
            case BinaryExpressionSyntax binary when binary.Right is not LiteralExpressionSyntax { RawKind: (int)SyntaxKind.StringLiteralExpression } && binary.Left is not LiteralExpressionSyntax { RawKind: (int)SyntaxKind.StringLiteralExpression } and not InterpolatedStringExpressionSyntax:
                return Other(binary.OperatorToken.Kind()).Select(o => $"{binary.Left} {o} {binary.Right}");
            case PrefixUnaryExpressionSyntax { RawKind: (int)SyntaxKind.LogicalNotExpression or (int)SyntaxKind.UnaryMinusExpression } unary when unary.Operand is not LiteralExpressionSyntax:
                return [unary.Operand.ToString()];
            case ConditionalExpressionSyntax choice:
                return [$"{choice.Condition} ? {choice.WhenFalse} : {choice.WhenTrue}"];
            case InvocationExpressionSyntax { Expression: MemberAccessExpressionSyntax call } invocation when Other(call.Name.Identifier.Text) is { } other:
                return [$"{call.Expression}.{other}{invocation.ArgumentList}"];
            default:
                return [];
        }
    }

    private static IEnumerable<string> Number(string text) => text switch
    {
        "0" => ["1"],
        "0.0" => ["1.0"],
        "1" => ["2"],
        "0.5" => ["1.0"],
        _ => [$"({text} * 2)"],
    };

    private static IEnumerable<string> Other(SyntaxKind kind) => kind switch
    {
        SyntaxKind.PlusToken => ["-"],
        SyntaxKind.MinusToken => ["+"],
        SyntaxKind.AsteriskToken => ["/"],
        SyntaxKind.SlashToken => ["*"],
        SyntaxKind.LessThanToken => ["<=", ">"],
        SyntaxKind.LessThanEqualsToken => ["<", ">"],
        SyntaxKind.GreaterThanToken => [">=", "<"],
        SyntaxKind.GreaterThanEqualsToken => [">", "<"],
        SyntaxKind.EqualsEqualsToken => ["!="],
        SyntaxKind.ExclamationEqualsToken => ["=="],
        SyntaxKind.AmpersandAmpersandToken => ["||"],
        SyntaxKind.BarBarToken => ["&&"],
        _ => [],
    };

    private static string? Other(string call) => call switch
    {
        "Max" => "Min",
        "Min" => "Max",
        "MaxBy" => "MinBy",
        "MinBy" => "MaxBy",
        "Sin" => "Cos",
        "Cos" => "Sin",
        "Ceiling" => "Floor",
        "Floor" => "Ceiling",
        "First" => "Last",
        "Last" => "First",
        "FirstOrDefault" => "LastOrDefault",
        "Any" => "All",
        "All" => "Any",
        "OrderBy" => "OrderByDescending",
        "OrderByDescending" => "OrderBy",
        _ => null,
    };
}
