using Rootgap.Drawings;

namespace Rootgap.Tests.Drawings;

public class TextMergeTest
{
    private static string Of(params string[] lines) => string.Concat(lines.Select(l => l + "\n"));

    // The example of Khanna, Kunal and Pierce, "A Formal Investigation of Diff3", 2007, section 1; from memory.
    [Fact]
    public void The_published_example_comes_out_as_published()
    {
        var merge = TextMerge.Of(Of("1", "2", "3", "4", "5", "6"), Of("1", "4", "5", "2", "3", "6"), Of("1", "2", "4", "5", "3", "6"))!;
        var parts = merge.Parts;
        Assert.Equal(["4\n", "5\n"], Assert.Single(parts, p => p.Taken is not null).Taken!);
        var open = Assert.Single(parts, p => p.Taken is null);
        Assert.Equal(["345", "3", "453"], new[] { open.Before, open.One, open.Other }.Select(l => string.Concat(l).Replace("\n", "", StringComparison.Ordinal)));
    }

    [Fact]
    public void Changes_of_different_rows_fit_together_and_one_of_the_same_row_is_asked()
    {
        var before = Of("a: 1", "b: 2", "c: 3", "d: 4");
        var merge = TextMerge.Of(before, Of("a: 10", "b: 2", "c: 30", "d: 4"), Of("a: 1", "b: 2", "c: 31", "d: 4", "e: 5"))!;
        Assert.Equal(3, merge.Parts.Count);
        Assert.Equal(3, Assert.Single(merge.Parts, p => p.Taken is null).Line);
        Assert.Equal(Of("a: 10", "b: 2", "c: 31", "d: 4", "e: 5"), merge.Text(p => p.Other));
    }

    [Fact]
    public void Whoever_changed_nothing_changes_nothing() =>
        Gen.Select(Lines, Lines).Sample((before, one) =>
        {
            Assert.Equal(one, TextMerge.Of(before, one, before)!.Text(_ => throw new InvalidOperationException()));
            Assert.Equal(one, TextMerge.Of(before, before, one)!.Text(_ => throw new InvalidOperationException()));
            Assert.Equal(one, TextMerge.Of(before, one, one)!.Text(_ => throw new InvalidOperationException()));
        }, iter: 300);

    [Fact]
    public void With_all_questions_answered_one_way_nothing_is_asked_that_the_other_way_would_lose() =>
        Gen.Select(Lines, Lines, Lines).Sample((before, one, other) =>
        {
            var (mine, theirs) = (TextMerge.Of(before, one, other)!, TextMerge.Of(before, other, one)!);
            Assert.Equal(mine.Text(p => p.One), theirs.Text(p => p.Other));
        }, iter: 300);

    private static readonly Gen<string> Lines = Gen.OneOf("a", "b", "c", "d").List[0, 8].Select(l => string.Join('\n', l));
}
