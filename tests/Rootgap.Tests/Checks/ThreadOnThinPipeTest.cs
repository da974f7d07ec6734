namespace Rootgap.Tests.Checks;

public class ThreadOnThinPipeTest
{
    private const string Rule = "thread-on-thin-pipe";

    // ASME B36.19M, note to its table: 5S and 10S are not for threading.
    [Fact]
    public void A_thread_on_schedule_10S_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, line: "size: 1, schedule: 10S, class: 150, ends: threaded, flange: TH"), "10S");

    [Fact]
    public void A_thread_on_schedule_40_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, line: "size: 1, schedule: 40S, class: 150, ends: threaded, flange: TH"));
}
