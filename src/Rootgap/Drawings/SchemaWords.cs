using System.Text.Json;

namespace Rootgap.Drawings;

/// <summary>The words of JSON Schema, draft 7, as they are written into an object that is open.</summary>
internal abstract class SchemaWords(Utf8JsonWriter json)
{
    protected Utf8JsonWriter Json => json;

    protected void Property(string name, string says, Action body)
    {
        Json.WriteStartObject(name);
        if (says.Length > 0)
            Json.WriteString("description", says);
        body();
        Json.WriteEndObject();
    }

    protected void ObjectOf(string key, string says, Action value)
    {
        Json.WriteString("type", "object");
        Json.WriteStartObject("properties");
        Property(key, says, value);
        Json.WriteEndObject();
        Strings("required", [key]);
        Json.WriteBoolean("additionalProperties", false);
    }

    protected void AnyOf(params Action[] bodies)
    {
        Json.WriteStartArray("anyOf");
        foreach (var body in bodies)
        {
            Json.WriteStartObject();
            body();
            Json.WriteEndObject();
        }

        Json.WriteEndArray();
    }

    protected void Array(Action item, int least = 0)
    {
        Json.WriteString("type", "array");
        if (least > 0)
            Json.WriteNumber("minItems", least);
        Json.WriteStartObject("items");
        item();
        Json.WriteEndObject();
    }

    protected void Types(params string[] types)
    {
        if (types.Length == 1)
            Json.WriteString("type", types[0]);
        else
            Strings("type", types);
    }

    protected void Words(IEnumerable<string> words) => Strings("enum", words);

    protected void Enum(IEnumerable<int> numbers)
    {
        Json.WriteStartArray("enum");
        foreach (var number in numbers)
            Json.WriteNumberValue(number);
        Json.WriteEndArray();
    }

    protected void Whole()
    {
        Json.WriteString("type", "integer");
        Json.WriteNumber("minimum", 1);
    }

    protected void Number(double least, double? most = null)
    {
        Json.WriteString("type", "number");
        Json.WriteNumber("minimum", least);
        if (most is { } value)
            Json.WriteNumber("maximum", value);
    }

    protected void Pattern(string pattern)
    {
        Json.WriteString("type", "string");
        Json.WriteString("pattern", pattern);
    }

    protected void Strings(string key, IEnumerable<string> words)
    {
        Json.WriteStartArray(key);
        foreach (var word in words)
            Json.WriteStringValue(word);
        Json.WriteEndArray();
    }
}
