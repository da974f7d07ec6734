using System.Globalization;
using System.Text;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;

namespace Rootgap.Tests.Site;

/// <summary>
/// An offset between two pipes taken with a rule from the wall and from the floor. Source: "Rolling offsets", 602apprentice.blogspot.com, January 2011: centres 47 1/2 and 16 7/8 in.
/// above the floor, 50 and 32 3/8 in. from the wall, so rise 30 5/8, roll 17 5/8, true offset 35 3/8; travel 50 in. at 45 degrees (with the true offset rounded up
/// to the eighth and 1.414 for the root of two).
/// </summary>
public class PublishedOffsetTest
{
    private const double Inch = 25.4, Sixteenth = Inch / 16;

    /// <summary>Two existing pipes along north; the far one is drawn so far to the east of and above the near one. The wall is at east 0, the floor at 0.</summary>
    private static string Drawing(double wall, double floor, double roll, double rise)
    {
        // At 45 degrees the advance is the true offset.
        var advance = Math.Sqrt((roll * roll) + (rise * rise));
        return string.Create(CultureInfo.InvariantCulture, $$$"""
            drawing: OFF-1
            line: {size: 2, schedule: 40}
            runs:
              - run: main
                start: {to: weld, at: {east: {{{wall}}}, north: 0, up: {{{floor}}}}}
                legs:
                  - {go: north, by: 500, to: elbow, begin: field}
                  - {go: {north: {{{advance}}}, east: {{{roll}}}, up: {{{rise}}}}, to: elbow}
                  - {go: north, by: 500, to: weld, end: final-fit}
            """);
    }

    [Fact]
    public void Wall_distances_and_heights_give_the_published_rise_roll_and_true_offset()
    {
        // Drawn 30 by 17 in., as somebody guessed; the rule says where the two pipes are.
        var line = SiteLine.Of(Given.Packet(Drawing(32 * Inch, 17 * Inch, 17 * Inch, 30 * Inch)).Fabrication);
        var (near, far) = (line.Ends.First(e => e.Body.IsOutside), line.Ends.Last(e => e.Body.IsOutside));
        var survey = string.Create(CultureInfo.InvariantCulture, $$"""
            survey: by rule from the wall and the floor
            readings:
              - {point: centre, at: {{near.Name}}, east: {{32.375 * Inch}}, up: {{16.875 * Inch}}, sd: 0.5}
              - {point: centre, at: {{far.Name}}, east: {{50 * Inch}}, up: {{47.5 * Inch}}, sd: 0.5}
            """);
        var read = SurveyReading.Read(line, "survey.yaml", Encoding.UTF8.GetBytes(survey));
        Assert.Empty(read.Errors);
        var standing = LineClosing.Of(line, read.Survey).Closing!.Adjustment.Standing;
        var (a, b) = (standing.Face(near), standing.Face(far));
        // What was thought before (drawn within 50 mm) pulls a ten-thousandth.
        var (rise, roll) = (b.Z - a.Z, b.X - a.X);
        Assert.Equal(30.625 * Inch, rise, 0.05);
        Assert.Equal(17.625 * Inch, roll, 0.05);
        Assert.Equal(35.334561692485 * Inch, Math.Sqrt((rise * rise) + (roll * roll)), 0.05);
    }

    [Fact]
    public void Drawn_as_measured_the_leg_is_the_published_travel()
    {
        var packet = Given.Packet(Drawing(32.375 * Inch, 16.875 * Inch, 17.625 * Inch, 30.625 * Inch));
        var travel = packet.Fabrication.Route.Runs[0].Distances[1];
        Assert.Equal(35.334561692485 * Math.Sqrt(2) * Inch, travel, 0.001);
        // The page rounds its way up to 50; a fitter's sixteenth.
        Assert.Equal(50 * Inch, travel, Sixteenth);
        // Both elbows turn 45 degrees: the travel's angle is that of the page.
        Assert.All(packet.Fabrication.Route.Components.OfType<Rootgap.Routes.Bent>(), e => Assert.Equal(45, Angles.ToDegrees(e.Turn), 1e-6));
    }
}
