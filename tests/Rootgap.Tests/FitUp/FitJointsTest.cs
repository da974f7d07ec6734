using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Sheets;

namespace Rootgap.Tests.FitUp;

/// <summary>From a drawing to its joints and cards.</summary>
public class FitJointsTest
{
    private const string Line = """
        drawing: A-1
        line: {size: 6, schedule: 40, class: 150, material: A106-B, flange: WN}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 900}}
            legs:
              - {go: up, by: 1450, to: elbow}
              - {go: north, by: 3200, to: tee, name: T1, branch: east}
              - {go: north, by: 2600, to: elbow, end: final-fit}
              - {go: {east: 600, up: 600}, to: elbow}
              - {go: east, by: makeup, to: flange}
          - run: drain
            start: {from: T1}
            legs:
              - {go: east, by: 900, to: elbow}
              - {go: north, by: makeup, to: elbow}
              - {go: down, by: 700, to: reducer, size: 4, kind: eccentric, flat: north}
              - {go: down, by: 500, to: outlet, name: O1, branch: north, size: 2}
              - {go: down, by: 500, to: cap}
          - run: vent
            start: {from: O1}
            legs:
              - {go: north, by: 300, to: flange}
        """;

    private static Rootgap.Fabricating.Fabrication Make(string text)
    {
        var reading = DrawingReader.Read(text, "a.yaml", _ => null);
        Assert.Empty(reading.Errors);
        return Spooling.Of(Routing.Of(reading.Drawing!));
    }

    private static IReadOnlyList<Target> TargetsOf(FitJoints fitting, string joint, Attitude attitude, bool flip = false)
    {
        var weld = fitting.Welds.Single(w => w.Id == joint);
        var fit = fitting.Of(weld, flip);
        return Targets.Of(new StandingJoint(fit, SetUps.Of(fitting, fit, attitude)), fitting.Limits(weld, fit));
    }

    [Fact]
    public void Every_weld_has_its_pipe_held_and_leads_into_the_other_part()
    {
        var f = Make(Line);
        var fitting = new FitJoints(f);
        Assert.Equal(f.Route.Joints.Count(j => j.IsWeld), fitting.Welds.Count);
        foreach (var weld in fitting.Welds)
        {
            var joint = fitting.Of(weld);
            Assert.Equal(1, joint.Axis.Length, 1e-9);
            // The middle of the new part lies ahead, that of the held one behind; on a branch the header lies below.
            Assert.True(0 < (joint.Tip - joint.Centre).Dot(joint.Axis) + 1e-6, weld.Id);
            if (weld.Kind == JointKind.Butt)
            {
                Assert.Equal(0, joint.Centre.To(weld.At), 1e-6);
                Assert.Equal(3.2, joint.Gap, 1e-6);
            }
        }
    }

    // ASME B16.9 mm column: NPS 6 long radius A = 229; B36.10M D = 168.3: 229 - 84.15 = 144.85 at every station.
    [Fact]
    public void The_first_elbow_of_a_line_has_its_published_scale_to_pipe()
    {
        var scales = TargetsOf(new FitJoints(Make(Line)), "W2", Attitude.Level).Where(t => t.Reading is Reading.Scale).ToList();
        Assert.Equal(2, scales.Count);
        Assert.All(scales, t => Assert.Equal(144.85, t.Value, 0.05));
    }

    // Plane geometry on the drawing's own numbers: mark at (-(1.6 + 300), 84.15), throat lip at (1.6 + 229 - 84.15, 229).
    [Fact]
    public void The_throat_tape_is_the_distance_on_the_drawing_board()
    {
        var tape = TargetsOf(new FitJoints(Make(Line)), "W2", Attitude.Level).Single(t => t.Reading == new Reading.Tape(12));
        Assert.Equal(Math.Sqrt(Math.Pow(301.6 + 1.6 + 229 - 84.15, 2) + Math.Pow(229 - 84.15, 2)), tape.Value, 0.01);
    }

    [Fact]
    public void Every_joint_is_planned_once_and_has_a_card_that_fits_its_page()
    {
        var f = Make(Line);
        var fitting = new FitJoints(f);
        foreach (var spool in f.Spools)
        {
            var cards = FitUpPages.Cards(fitting, f, spool);
            Assert.Equal(spool.Joints.Count(j => j.IsWeld), cards.Count);
            Assert.Equal(cards.Count, cards.Select(c => c.Step.Joint.Name).Distinct(StringComparer.Ordinal).Count());
            foreach (var card in cards)
            {
                var scene = FitUpCard.Scene(card);
                foreach (var text in Texts(scene.Marks))
                    Assert.True(scene.Paper.Box.Holds(text.Box, 0.5), $"{card.Step.Joint.Name}: {text.Content}");
            }
        }
    }

    [Fact]
    public void A_card_bears_every_target_or_an_empty_place_says_that_there_is_none()
    {
        var f = Make(Line);
        var card = FitUpPages.Cards(new FitJoints(f), f, f.Spools[0]).Single(c => c.Step.Joint.Name == "W2");
        var words = Texts(FitUpCard.Scene(card).Marks).Select(t => t.Content).ToList();
        foreach (var target in card.Targets.Where(t => !t.Reading.IsAngle && t.Reading is not Reading.Height { At: null } and not Reading.Scale and not Reading.TurnMark))
        {
            // Nobody reads more of a tape than half a millimetre.
            var shown = target.Reading.IsByTape ? Math.Round(2 * target.Value) / 2 : target.Value;
            Assert.Contains(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{shown:0.0}"), words);
        }
    }

    // What is printed of a text: its capitals' height, without the room that a line leaves above and below.
    private static Box Ink(Text text) => text.Box.Inset(0.25, text.Box.Height * 0.22);

    // A figure or a name that lies on other words hides them: of two texts on a card no one covers another.
    [Fact]
    public void No_words_on_a_card_lie_on_others() => Gens.Sketches.Select(s => s.Packet()).Where(p => p.IsBuildable && p.Fabrication.Spools.Any(s => s.Joints.Count is > 0 and < 9)).Holds(packet =>
    {
        var fitting = new FitJoints(packet.Fabrication);
        foreach (var card in packet.Fabrication.Spools.Where(s => s.Joints.Count is > 0 and < 9).SelectMany(s => FitUpPages.Cards(fitting, packet.Fabrication, s)))
        {
            var words = Texts(FitUpCard.Scene(card).Marks).Where(t => t.Content.Length > 0).ToList();
            for (var i = 0; i < words.Count; i++)
            {
                for (var k = i + 1; k < words.Count; k++)
                    Assert.False(Ink(words[i]).Overlaps(Ink(words[k])), $"{card.Step.Joint.Name}: \"{words[i].Content}\" on \"{words[k].Content}\"");
            }
        }
    }, iter: 20);

    [Fact]
    public void Moving_or_turning_the_drawing_changes_no_target_on_the_bench()
    {
        var east = Line.Replace("up: 900", "up: 5900", StringComparison.Ordinal).Replace("north: 0", "north: 777", StringComparison.Ordinal);
        var (one, other) = (new FitJoints(Make(Line)), new FitJoints(Make(east)));
        foreach (var weld in one.Welds)
        {
            var (a, b) = (TargetsOf(one, weld.Id, Attitude.Level), TargetsOf(other, weld.Id, Attitude.Level));
            Assert.Equal(a.Select(t => t.Reading.Text), b.Select(t => t.Reading.Text), StringComparer.Ordinal);
            for (var i = 0; i < a.Count; i++)
                Assert.Equal(a[i].Value, b[i].Value, 1e-6);
        }
    }

    [Fact]
    public void A_branch_is_set_out_by_its_place_along_and_round_the_header()
    {
        var fitting = new FitJoints(Make(Line));
        var branch = fitting.Of(fitting.Welds.Single(w => w.Kind == JointKind.Branch));
        // The header stands upright and the branch looks north: on its north line, where the top of an upright pipe is.
        Assert.Equal(0, branch.BranchAt!.Value.Round, 0.01);
        // 500 down from the reducer's small end less half a gap and the weld: work point to work point less one root gap (3.2).
        Assert.Equal(500 - 3.2, branch.BranchAt.Value.Along, 0.01);
    }

    private static IEnumerable<Text> Texts(IEnumerable<Mark> marks)
    {
        foreach (var mark in marks)
        {
            if (mark is Text text && text.Turn == 0)
                yield return text;
            if (mark is not Group group)
                continue;
            foreach (var inner in Texts(group.Marks))
                yield return inner;
        }
    }
}
