using System.Buffers;
using System.IO.Pipelines;
using System.Runtime.CompilerServices;
using System.Text.Json;

namespace Rootgap.Server;

/// <summary>Reads <c>{"facts": [...]}</c> fact by fact as it comes, so that no more of it is held than one fact.</summary>
internal static class FactBody
{
    /// <summary>The list is not there where it should be.</summary>
    public sealed class NoFactsException : Exception;

    private enum Stage
    {
        Start,
        Keys,
        Value,
        List,
        Facts,
        End,
    }

    /// <summary>Each fact in turn; whoever takes it closes it.</summary>
    /// <exception cref="JsonException">It is not JSON from here on; what came before stands.</exception>
    /// <exception cref="NoFactsException">It is JSON, and holds no list of facts.</exception>
    public static async IAsyncEnumerable<JsonDocument> ReadAsync(PipeReader body, [EnumeratorCancellation] CancellationToken cancel)
    {
        // Deeper than what is taken, so that one fact that is too deep is refused by itself.
        var state = new JsonReaderState(new JsonReaderOptions { MaxDepth = 256 });
        var stage = Stage.Start;
        var wanted = 0L;
        List<JsonDocument> facts = [];
        while (true)
        {
            var read = await body.ReadAsync(cancel);
            var buffer = read.Buffer;
            // What is not whole yet is looked at again when there is twice as much of it: else a long fact is read over and over.
            if (!read.IsCompleted && buffer.Length < wanted)
            {
                body.AdvanceTo(buffer.Start, buffer.End);
                continue;
            }

            SequencePosition used;
            try
            {
                used = Take(buffer, read.IsCompleted, ref state, ref stage, facts);
            }
            catch (Exception e) when (e is JsonException or NoFactsException)
            {
                body.AdvanceTo(buffer.End);
                throw;
            }

            wanted = 2 * buffer.Slice(used).Length;
            body.AdvanceTo(used, buffer.End);
            foreach (var fact in facts)
                yield return fact;
            facts.Clear();
            if (read.IsCompleted)
            {
                if (stage != Stage.End)
                    throw new NoFactsException();
                yield break;
            }
        }
    }

    private static SequencePosition Take(ReadOnlySequence<byte> buffer, bool isAll, ref JsonReaderState state, ref Stage stage, List<JsonDocument> facts)
    {
        var reader = new Utf8JsonReader(buffer, isAll, state);
        var whole = reader;
        while (Step(ref reader, ref stage, facts))
            whole = reader;
        state = whole.CurrentState;
        return whole.Position;
    }

    // One token, or one whole value; false where it is not there yet, or all is read.
    private static bool Step(ref Utf8JsonReader reader, ref Stage stage, List<JsonDocument> facts)
    {
        if (!reader.Read())
            return false;
        switch (stage)
        {
            case Stage.Start:
                stage = reader.TokenType == JsonTokenType.StartObject ? Stage.Keys : throw new NoFactsException();
                return true;
            case Stage.Keys when reader.TokenType == JsonTokenType.EndObject:
                throw new NoFactsException();
            case Stage.Keys:
                stage = reader.ValueTextEquals("facts"u8) ? Stage.List : Stage.Value;
                return true;
            case Stage.Value:
                if (!reader.TrySkip())
                    return false;
                stage = Stage.Keys;
                return true;
            case Stage.List:
                stage = reader.TokenType == JsonTokenType.StartArray ? Stage.Facts : throw new NoFactsException();
                return true;
            case Stage.Facts when reader.TokenType == JsonTokenType.EndArray:
                stage = Stage.End;
                return true;
            case Stage.Facts:
                if (!JsonDocument.TryParseValue(ref reader, out var fact))
                    return false;
                facts.Add(fact);
                return true;
            default:
                return reader.TrySkip();
        }
    }
}
