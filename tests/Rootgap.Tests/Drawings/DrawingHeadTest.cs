using Rootgap.Drawings;

namespace Rootgap.Tests.Drawings;

/// <summary>What is found at the top of a file without reading the rest is what the reader of the whole finds.</summary>
public class DrawingHeadTest
{
    [Theory]
    [InlineData("CHW-201", "'2'")]
    [InlineData("'CHW ''A'' 201'", "2 # the second")]
    [InlineData("\"CHW 8\\\" 201\"", "\"B\"")]
    [InlineData("\"back \\\\ slash\"", "2")]
    [InlineData("'# 7'", "'it''s'")]
    public void Quoted_numbers_are_found_whole(string number, string revision)
    {
        var text = $"drawing: {number}\nrevision: {revision}\ntitle: {number}\nline: {{size: 6, schedule: 40}}\nruns:\n  - run: main\n    start: {{to: open}}\n    legs:\n      - {{go: up, by: 900, to: open}}\n";
        var drawing = DrawingReader.Read(text, "a.yaml").Drawing!;
        Assert.Equal(new DrawingHead(drawing.Number, drawing.Revision), DrawingHead.Of(text));
        Assert.Equal(drawing.Title, DrawingHead.TitleOf(text));
    }
}
