using Rootgap.Records;
using static Rootgap.Tests.Records.FactGens;

namespace Rootgap.Tests.Records;

public class KeptTimeTest
{
    private static readonly DrawingRef Drawing = new("D-1", "2");

    private static HeatNoted Heat(int n, string heat, DateTimeOffset when, DateTimeOffset? kept = null) =>
        new(Id(n), "Jo", when, Drawing, "E1", heat) { Kept = kept is { } at ? new(n, at) : null };

    private static string Counting(params Fact[] facts) => ((HeatNoted)JobRecord.Of(facts).OnDrawings[^1].Fact).Heat;

    [Fact]
    public void A_fact_from_the_year_9999_owns_nothing_once_it_is_kept_and_another_follows()
    {
        var late = new DateTimeOffset(9999, 1, 1, 0, 0, 0, TimeSpan.Zero);
        Assert.Equal("right", Counting(Heat(1, "wrong", late, Noon), Heat(2, "right", Noon.AddMinutes(5), Noon.AddMinutes(5))));
    }

    [Fact]
    public void What_was_done_offline_and_came_later_stays_before_what_was_done_after_it() =>
        Assert.Equal("eleven", Counting(Heat(1, "eleven", Noon.AddHours(-1), Noon.AddHours(-1)), Heat(2, "ten", Noon.AddHours(-2), Noon)));

    [Fact]
    public void Of_one_time_the_one_kept_later_counts_whatever_its_id() =>
        Assert.Equal("second", Counting(Heat(9, "first", Noon) with { Kept = new(1, Noon) }, Heat(3, "second", Noon) with { Kept = new(2, Noon) }));

    [Fact]
    public void The_written_form_knows_nothing_of_where_it_is_kept() =>
        Assert.Equal(FactJson.Text(Heat(1, "a", Noon)), FactJson.Text(Heat(1, "a", Noon, Noon)));

    [Fact]
    public void One_change_that_came_on_two_ways_is_not_two_peoples()
    {
        var one = FileSaved.OfText(Id(1), "folder", Noon, "a.yaml", "one");
        var tablet = FileSaved.OfText(Id(2), "Ann", Noon.AddMinutes(1), "a.yaml", "two", one.Id);
        var folder = FileSaved.OfText(Id(3), "folder", Noon.AddMinutes(9), "a.yaml", "two", one.Id);
        Assert.Equal(tablet.Id, Assert.Single(JobRecord.Of([one, tablet, folder]).Files["a.yaml"].Heads).Id);
        // Whoever goes on from either goes on from both.
        var next = FileSaved.OfText(Id(4), "Bo", Noon.AddMinutes(10), "a.yaml", "three", folder.Id);
        Assert.Equal(next.Id, Assert.Single(JobRecord.Of([one, tablet, folder, next]).Files["a.yaml"].Heads).Id);
        var other = FileSaved.OfText(Id(5), "Bo", Noon.AddMinutes(10), "a.yaml", "else", one.Id);
        Assert.True(JobRecord.Of([one, tablet, folder, other]).Files["a.yaml"].IsTorn);
    }

    // Names that one system reads as another's. Unicode 16, "Combining Diacritical Marks"; POSIX NAME_MAX.
    [Theory]
    [InlineData("x.yaml/y.yaml")]
    [InlineData("a/b.XLSX/c.yaml")]
    [InlineData("~$list.xlsx")]
    [InlineData("a/~$list.csv")]
    [InlineData("cafe\u0301.yaml")]
    [InlineData("half\ud800.yaml")]
    public void Names_that_cannot_be_kept_everywhere_are_refused(string path) => Assert.NotNull(JobPath.WhyNot(path));

    [Fact]
    public void A_name_is_measured_in_bytes()
    {
        Assert.Null(JobPath.WhyNot(new string('管', 60) + ".yaml"));
        Assert.NotNull(JobPath.WhyNot(new string('管', 70) + ".yaml"));
        Assert.Null(JobPath.WhyNot("café.yaml"));
    }

    [Fact]
    public void What_is_signed_is_the_same_however_it_was_written_and_read() => One(1, 5).Sample(fact =>
    {
        if (fact is UnknownFact)
            return;
        var signed = fact with { Signed = new(Id(7), Id(8), Id(9), "code", "AAAA") };
        var bytes = FactJson.SignedBytes(signed);
        var read = FactJson.Read(FactJson.Text(signed)).Fact!;
        Assert.Equal(signed.Signed, read.Signed);
        Assert.Equal(bytes, FactJson.SignedBytes(read));
        Assert.Equal(bytes, FactJson.SignedBytes(read with { Signed = read.Signed! with { Value = "BBBB" } }));
        Assert.NotEqual(bytes, FactJson.SignedBytes(read with { Signed = read.Signed! with { Person = Id(6) } }));
    }, iter: 300);

    [Fact]
    public void Who_may_sign_goes_by_the_order_in_which_it_was_kept()
    {
        Fact Named(int n, params Right[] may) => new PersonNamed(Id(n), "Ann", Noon, Id(100), "Ann", null, "", may);
        var roster = Roster.Of([Named(1, Right.Fit, Right.People), new Revoked(Id(2), "Ann", Noon, Id(100), "gone")]);
        Assert.False(roster.People[Id(100)].May(Right.Fit));
        Assert.Null(roster.Named("Ann"));
        Assert.True(Roster.Of([.. new[] { Named(1, Right.Fit), new Revoked(Id(2), "Ann", Noon, Id(100), "gone"), Named(3, Right.Weld) }]).People[Id(100)].May(Right.Weld));
    }
}
