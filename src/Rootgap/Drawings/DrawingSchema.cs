using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Rootgap.Standards;

namespace Rootgap.Drawings;

/// <summary>The JSON Schema of the drawing file, made from <see cref="DrawingShape"/>, so that any editor completes and checks what is typed.</summary>
/// <remarks>
/// Draft 7, since editors know that one best. The schema is a little narrower than the reader in matters of taste (words in small letters)
/// and wider where a figure's meaning needs the rest of the file: the reader has the last word.
/// </remarks>
public static class DrawingSchema
{
    private const string LengthPattern = """^(\d|\.\d|[½¼¾⅛⅜⅝⅞]).*$""";
    private const string SignedPattern = """^[-+−]? ?(\d|\.\d|[½¼¾⅛⅜⅝⅞]).*$""";
    private const string SizePattern = """^(DN ?\d+|(NPS ?)?\d+([- ]\d+/\d+|/\d+|\.\d+)?( ?in|")?)$""";
    private const string SlopePattern = """^\d*\.?\d+ ?(:| in ) ?\d*\.?\d+$|^\d*\.?\d+ ?%$""";

    private static readonly JsonWriterOptions Writing = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, NewLine = "\n" };

    /// <summary>The schema as JSON text, lines ended by a line feed.</summary>
    public static string Text()
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Writing))
            new Writer(json).Write();
        return Encoding.UTF8.GetString(buffer.WrittenSpan) + "\n";
    }

    /// <summary>Every mapping of the drawing file, the outermost first, each once.</summary>
    internal static IReadOnlyList<Shape> Shapes()
    {
        var shapes = new List<Shape>();
        void Add(Shape shape)
        {
            if (shapes.Contains(shape))
                return;
            shapes.Add(shape);
            foreach (var key in shape.Keys)
            {
                if (key.Of is { } inner)
                    Add(inner);
            }
        }

        Add(DrawingShape.Drawing);
        return shapes;
    }

    private sealed class Writer(Utf8JsonWriter json) : SchemaWords(json)
    {
        public void Write()
        {
            Json.WriteStartObject();
            Json.WriteString("$schema", "http://json-schema.org/draft-07/schema#");
            Json.WriteString("title", "Rootgap drawing file");
            Json.WriteString("description", "One piping isometric, written down in the order a fitter reads it.");
            Json.WriteString("$ref", Reference(DrawingShape.Drawing));
            Json.WriteStartObject("definitions");
            Property("length", "A bare number in the drawing's units, or a length with its own unit: 1450 mm, 1.45 m, 4'-9 1/2\", 57 1/2 in.",
                () => AnyOf(() => Number(0), () => Pattern(LengthPattern)));
            Property("size", "Nominal size: 6, 1/2, 1-1/2, DN150.", () => AnyOf(
                () => Number(0.125, 48),
                () => Pattern(SizePattern)));
            Property("direction", "One of the six directions, or a vector of lengths.", () => AnyOf(() => Words(FileWords.Directions), () => Reference("vector")));
            Property("coordinate", "A length that may have a minus sign.", () => AnyOf(() => Types("number"), () => Pattern(SignedPattern)));
            Property("vector", "Lengths in any of the six directions.", () =>
            {
                Json.WriteString("type", "object");
                Json.WriteNumber("minProperties", 1);
                Json.WriteStartObject("properties");
                foreach (var word in FileWords.Directions)
                    Property(word, "", () => Reference("coordinate"));
                Json.WriteEndObject();
                Json.WriteBoolean("additionalProperties", false);
            });
            foreach (var shape in Shapes())
                Definition(shape);
            Json.WriteEndObject();
            Json.WriteEndObject();
        }

        private static string Reference(Shape shape) => "#/definitions/" + shape.Name.Replace(' ', '-');

        private void Reference(string name) => Json.WriteString("$ref", "#/definitions/" + name);

        private void Definition(Shape shape)
        {
            Json.WriteStartObject(shape.Name.Replace(' ', '-'));
            Json.WriteString("type", "object");
            Json.WriteStartObject("properties");
            foreach (var key in shape.Keys)
                Property(key.Name, key.Says, () => OfKind(key));
            Json.WriteEndObject();
            Json.WriteBoolean("additionalProperties", false);
            var required = shape.Keys.Where(k => k.IsRequired).Select(k => k.Name).ToList();
            if (required.Count > 0)
                Strings("required", required);
            if (shape == DrawingShape.Leg)
                LegRules();
            else if (shape == DrawingShape.Start)
                StartRules();
            else if (shape == DrawingShape.Line)
                Strings("required", ["size", "schedule"]);
            Json.WriteEndObject();
        }

        /// <summary>What goes with each work point, and the keys it asks for.</summary>
        private void LegRules()
        {
            var conditional = DrawingShape.KeysOf.Values.SelectMany(k => k).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToList();
            Json.WriteStartArray("allOf");
            foreach (var (to, fits) in DrawingShape.KeysOf)
            {
                If("to", to, () =>
                {
                    Json.WriteStartObject("properties");
                    foreach (var key in conditional.Where(k => !fits.Contains(k)))
                        Json.WriteBoolean(key, false);
                    foreach (var (key, words) in WorkPointKind.Of(to)!.Choices)
                        Property(key, "", () => Words(words));
                    Json.WriteEndObject();
                    if (WorkPointKind.Of(to)!.Required is { Length: > 0 } required)
                        Strings("required", required);
                });
            }

            // A tee entered by its run has a branch direction and the size of its line; one entered by its branch has no other branch.
            Json.WriteStartObject();
            Json.WriteStartObject("if");
            Json.WriteStartObject("properties");
            Property("to", "", () => Json.WriteString("const", "tee"));
            Property("enter", "", () => Json.WriteString("const", "branch"));
            Json.WriteEndObject();
            Strings("required", ["to", "enter"]);
            Json.WriteEndObject();
            Json.WriteStartObject("then");
            Forbidden(["branch"]);
            Json.WriteEndObject();
            Json.WriteStartObject("else");
            IfThen("to", "tee", () =>
            {
                Forbidden(["size"]);
                Strings("required", ["branch"]);
            });
            Json.WriteEndObject();
            Json.WriteEndObject();

            // A direction in one word tells no distance; a vector has its own length.
            Json.WriteStartObject();
            Json.WriteStartObject("if");
            Json.WriteStartObject("properties");
            Property("go", "", () => Json.WriteString("type", "string"));
            Json.WriteEndObject();
            Strings("required", ["go"]);
            Json.WriteEndObject();
            Json.WriteStartObject("then");
            Strings("required", ["by"]);
            Json.WriteEndObject();
            Json.WriteEndObject();
            Json.WriteEndArray();
        }

        private void StartRules()
        {
            var all = DrawingShape.Start.Keys.Select(k => k.Name).ToList();
            Json.WriteStartArray("oneOf");
            Json.WriteStartObject();
            Strings("required", ["from"]);
            Forbidden(all.Where(k => k != "from"));
            Json.WriteEndObject();
            foreach (var word in DrawingShape.StartWords)
            {
                string[] fits = ["to", "at", "item", "spool", .. DrawingShape.KeysOf[word]];
                Json.WriteStartObject();
                Strings("required", ["to"]);
                Json.WriteStartObject("properties");
                Property("to", "", () => Json.WriteString("const", word));
                foreach (var key in all.Where(k => !fits.Contains(k)))
                    Json.WriteBoolean(key, false);
                Json.WriteEndObject();
                Json.WriteEndObject();
            }

            Json.WriteEndArray();
        }

        private void Forbidden(IEnumerable<string> keys)
        {
            Json.WriteStartObject("properties");
            foreach (var key in keys)
                Json.WriteBoolean(key, false);
            Json.WriteEndObject();
        }

        private void If(string key, string word, Action then)
        {
            Json.WriteStartObject();
            IfThen(key, word, then);
            Json.WriteEndObject();
        }

        private void IfThen(string key, string word, Action then)
        {
            Json.WriteStartObject("if");
            Json.WriteStartObject("properties");
            Property(key, "", () => Json.WriteString("const", word));
            Json.WriteEndObject();
            Strings("required", [key]);
            Json.WriteEndObject();
            Json.WriteStartObject("then");
            then();
            Json.WriteEndObject();
        }

        private void OfKind(Key key)
        {
            switch (key.Kind)
            {
                case Kind.Text:
                    Types("string", "number", "boolean");
                    break;
                case Kind.Whole:
                    AnyOf(() => Whole(), () => Pattern("^[1-9]\\d*$"));
                    break;
                case Kind.Number:
                    AnyOf(() => Number(0), () => Pattern("^\\d*\\.?\\d+$"));
                    break;
                case Kind.Mass:
                    AnyOf(() => Number(0), () => Pattern("^\\d[\\d,]*(\\.\\d+)?( ?(kg|lbs?|t|g))?$"));
                    break;
                case Kind.Length:
                    Reference("length");
                    break;
                case Kind.Lengths:
                    AnyOf(() => Reference("length"), () => Array(() => Reference("length")));
                    break;
                case Kind.Size:
                    Reference("size");
                    break;
                case Kind.Sizes:
                    AnyOf(() => Reference("size"), () => Pattern(SizePattern[..^1] + " ?[xX×] ?" + SizePattern[1..]));
                    break;
                case Kind.Schedule:
                    AnyOf(
                        () => Words(Pipes.Schedules),
                        () => Enum(Pipes.Schedules.Where(s => s.All(char.IsAsciiDigit)).Select(s => int.Parse(s, System.Globalization.CultureInfo.InvariantCulture))),
                        WallOfItsOwn);
                    break;
                case Kind.Direction or Kind.Go:
                    Reference("direction");
                    break;
                case Kind.By:
                    AnyOf(() => Words(["makeup", "return"]), () => Reference("length"));
                    break;
                case Kind.Angle:
                    AnyOf(() => Number(-360, 360), () => Pattern("^[-+]?\\d*\\.?\\d+ ?°?$"));
                    break;
                case Kind.Choice:
                    Words(key.Words!);
                    break;
                case Kind.YesNo:
                    AnyOf(() => Words(["yes", "no"]), () => Types("boolean"));
                    break;
                case Kind.Slope:
                    Pattern(SlopePattern);
                    break;
                case Kind.Quantity:
                    AnyOf(() => Number(0), () => Pattern("^(\\d|\\.\\d).*$"));
                    break;
                case Kind.Place:
                    Reference("vector");
                    break;
                case Kind.Map or Kind.Plate:
                    Json.WriteString("$ref", Reference(key.Of!));
                    break;
                case Kind.List:
                    Array(() => Json.WriteString("$ref", Reference(key.Of!)), key.IsRequired ? 1 : 0);
                    break;
                case Kind.Materials:
                    AnyOf(() => Pattern("\\.(yaml|yml|csv|xlsx)$"), () => Array(() => Json.WriteString("$ref", Reference(key.Of!))));
                    break;
                case Kind.ShopFile:
                    AnyOf(() => Types("string"), () => Json.WriteString("$ref", Reference(key.Of!)));
                    break;
                case Kind.Measured:
                    Measured();
                    break;
                case Kind.Holes:
                    AnyOf(() => Words(["straddle", "on-centre"]), () => Number(-360, 360));
                    break;
                case Kind.Flat:
                    AnyOf(() => Words(["top", "bottom"]), () => Reference("direction"));
                    break;
                case Kind.Spread:
                    AnyOf(() => Reference("length"), () => ObjectOf("normal", "Standard deviation.", () => Reference("length")));
                    break;
                case Kind.SpreadAngle:
                    AnyOf(() => Number(0, 360), () => ObjectOf("normal", "Standard deviation, degrees.", () => Number(0, 360)));
                    break;
                case Kind.Names:
                    AnyOf(() => Types("string", "number"), () => Array(() => Types("string", "number")));
                    break;
                default:
                    throw new InvalidOperationException("Every kind of value has its schema.");
            }
        }

        private void WallOfItsOwn() => ObjectOf("wall", "Wall thickness.", () => Reference("length"));

        private void Measured()
        {
            Json.WriteString("type", "object");
            Json.WriteStartObject("patternProperties");
            Property("^(item )?\\d+$", "A material item whose fitting was measured.", () =>
            {
                Json.WriteString("type", "object");
                Json.WriteStartObject("properties");
                Property("take-off", "Centre to end, as measured.", () => Reference("length"));
                Json.WriteEndObject();
                Strings("required", ["take-off"]);
                Json.WriteBoolean("additionalProperties", false);
            });
            Json.WriteEndObject();
            Json.WriteBoolean("additionalProperties", false);
        }
    }
}
