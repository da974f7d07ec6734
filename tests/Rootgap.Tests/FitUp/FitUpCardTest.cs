using System.Text.RegularExpressions;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;
using Rootgap.Tests.Sheets;

namespace Rootgap.Tests.FitUp;

/// <summary>Cards as a fitter reads them: pipes by their piece marks, pictures in which the weld can be seen.</summary>
public partial class FitUpCardTest
{
    [GeneratedRegex(@"\bP\d+\b")]
    private static partial Regex InFiles { get; }

    private static Rootgap.Fabricating.Fabrication Made(string sample) => SampleFile.Clean.Single(s => s.Name == sample).Packet().Fabrication;

    private static IEnumerable<FitUpJob> Cards(string sample) => Made(sample) is var f ? Cards(f, new(f)) : [];

    private static IEnumerable<FitUpJob> Cards(Rootgap.Fabricating.Fabrication f, FitJoints fitting) => f.Spools.SelectMany(s => FitUpPages.Cards(fitting, f, s));

    public static TheoryData<string> Samples => ["drain", "recirculation", "sea-water"];

    // A pipe is P4 in files; 2-B is painted on it. Everything that is said of a joint, from its card to why something cannot be, uses what is painted on.
    [Theory]
    [MemberData(nameof(Samples))]
    public void No_word_to_people_calls_a_pipe_by_its_number_in_files(string sample)
    {
        var f = Made(sample);
        var fitting = new FitJoints(f);
        foreach (var card in Cards(f, fitting))
        {
            var (c, joint) = (card.Card, card.Standing);
            // What is brought is named with its mass, and where the hook goes.
            if (c.Step.Joint.Brought.Mass > 0)
                Assert.Matches(@" kg, centre \d+ from the weld", card.Words.Brought(c.Step.Joint));
            List<string> said = [card.Words.Head(c), .. card.Words.Standing(c), .. card.Words.StandingInShort(c), .. card.Words.Besides(c), .. FitUpCard.Mind(card)];
            // Off in everything, with readings that contradict each other and of the part itself.
            var error = new PoseError(3, -4, 5, 0.03, -0.04, 0.05);
            List<Taken> taken = [.. c.Targets.Select(t => new Taken(t.Reading, t.Reading.Measure(joint, error))), .. c.OfPart.Select(t => new Taken(t.Reading, 2))];
            said.AddRange(Remedy.Say(joint, c.Limits, Diagnosis.Of(joint, c.Limits, taken, c.Targets)));
            foreach (var reading in Reading.All(joint).Concat(c.OfPart.Select(t => t.Reading)))
            {
                said.Add(reading.WhyNot(joint) ?? "");
                said.Add(FitReadings.Wrong(new(reading, 1e5), joint) is var (message, remedy) ? message + remedy : "");
            }

            var standing = new Stances(c.Step.Joint, fitting.Net, fitting.Rules);
            said.AddRange(Enum.GetValues<Attitude>().Select(standing.WhyNot));
            Assert.Null(FitWork.Otherwise(fitting.OfSpool(fitting.SpoolOf(c.Step.Weld)!), c.Step, null, "P99", out var refused));
            said.Add(refused);
            foreach (var text in Drawn.Texts(FitUpCard.Scene(card).Marks))
                said.Add(text.Content);
            Assert.All(said, s => Assert.DoesNotMatch(InFiles, s.Replace("P99", "", StringComparison.Ordinal)));
        }
    }

    // A rod of 3/32 is asked for by its name; what is no such fraction within a thousandth, by its thousandths. Millimetres stay what they are.
    [Theory]
    [InlineData(2.38125, "3/32\"")]
    [InlineData(3.2, "1/8\"")]
    [InlineData(3.0, "0.118\"")]
    [InlineData(0, "0\"")]
    public void A_gap_in_inches_is_called_by_the_rod_that_it_is(double mm, string says)
    {
        Assert.Equal(says, new FitWords(Units.Inches, id => id).Gap(mm));
        Assert.Equal(mm.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture) + " mm", new FitWords(Units.Millimetres, id => id).Gap(mm));
    }

    // Tablet, card and command line have these words from one place.
    [Fact]
    public void A_gap_that_is_read_is_said_as_the_rod_that_was_asked_for()
    {
        var words = FitWords.In(Units.Inches);
        Assert.Equal(("1/8\"", "0.030\"", "2'-0 1/8\""), (words.Show(new Reading.Gap(12), 3.2), words.Show(new Reading.HiLo(12), 0.762), words.Show(new Reading.Tape(12), 612.8)));
        // What a tape shows is allowed in its own parts, and never more than it is: 0.401" is 3/8" and a little, 0.498" 15/32".
        Assert.Equal(("3/8\"", "15/32\"", "0.020\"", "2 5/8\"", "13\""),
            (words.ShowSmall(new Reading.Tape(12), 0.401 * 25.4), words.ShowSmall(new Reading.Height(12), 0.498 * 25.4), words.ShowSmall(new Reading.Tape(3), 0.02 * 25.4), words.ShowSmall(new Reading.Height(3), 2.66 * 25.4), words.ShowSmall(new Reading.Height(3), 13.4 * 25.4)));
        // A gap gauge and a hi-lo gauge of an inch shop have sixty-fourths (common practice): 1.5 mm is 1/16", 0.8 mm 1/32", 1.1 mm, 0.043", no more than 1/32"; under 1/64" a feeler is asked for.
        Assert.Equal(("1/16\"", "1/32\"", "1/32\"", "0.012\"", "0\""),
            (words.ShowSmall(new Reading.HiLo(12), 1.5), words.ShowSmall(new Reading.Square(12), 0.8), words.ShowSmall(new Reading.Gap(12), 1.1), words.ShowSmall(new Reading.TurnMark(), 0.3), words.Show(new Reading.HiLo(12), 0)));
        Assert.Equal("3.2 mm", FitWords.In(Units.Millimetres).Told(new Reading.Gap(12), 3.2));
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void The_ends_of_a_spool_are_called_by_the_pieces_that_they_are_on(string sample)
    {
        var f = Made(sample);
        var fitting = new FitJoints(f);
        foreach (var check in f.Spools.Select(s => FinalCheck.Welded(fitting.OfSpool(s))).Where(c => c.Base is not null))
        {
            foreach (var target in check.Targets)
            {
                Assert.DoesNotMatch(InFiles, FinalWords.Of(target.Reading, check));
                // An allowance is in what is read: degrees of an angle, millimetres of a length.
                Assert.Equal(target.Reading.IsAngle, new FinalWords(new(Units.Millimetres, id => id)).ShowSmall(target.Reading, 0.01).EndsWith('°'));
            }

            // A readings file may use either.
            foreach (var end in check.Ends)
                Assert.Equal((end, end), (check.Find(end.Name), check.Find(end.Called)));
            var (_, errors) = FinalReadings.Read($"spool: {check.Spool.Spool.Name}\nbase: X9\nreadings:\n  - {{read: tape, from: X9 12, to: {check.Base!.Called} 12, mm: 1}}\n", "r.yaml")!.Of(check);
            Assert.NotEmpty(errors);
            Assert.All(errors, e => Assert.DoesNotMatch(InFiles, e.Message + e.Remedy));
        }
    }

    // Lines that leave the picture lie on the words around it.
    [Theory]
    [MemberData(nameof(Samples))]
    public void What_is_drawn_stays_in_the_picture(string sample)
    {
        foreach (var card in Cards(sample))
        {
            var scene = FitUpCard.Picture(card);
            foreach (var (a, b) in Drawn.Lines(scene.Marks))
            {
                foreach (var spot in new[] { a, b })
                    Assert.True(spot.X > 0 && spot.Y > 0 && spot.X < scene.Paper.Width && spot.Y < scene.Paper.Height, $"{card.Step.Joint.Name}: {spot}");
            }
        }
    }

    // On the floor upper and lower are as the spool lies there: an end is found by its joint. A branch's place is laid off from that end.
    [Theory]
    [MemberData(nameof(Samples))]
    public void Ends_are_called_by_their_joints(string sample)
    {
        var f = Made(sample);
        var branches = 0;
        foreach (var card in Cards(f, new(f)))
        {
            Assert.DoesNotMatch(@"(upper|lower|north|south|east|west) end|upper side|lower side|far end of", string.Join(' ', card.Words.StandingInShort(card.Card).Concat(card.Words.Besides(card.Card))));
            foreach (var place in card.Words.Besides(card.Card).Select(w => BranchPlace.Match(w)).Where(m => m.Success))
            {
                branches++;
                var end = f.Route.Joints.Single(j => j.Id == place.Groups["end"].Value);
                var along = (card.Step.Joint.Centre - end.At).Dot(card.Step.Joint.Header);
                // A gap, or what a slip-on leaves, lies between the pipe's end and its joint.
                Assert.InRange(Math.Abs(along) - double.Parse(place.Groups["mm"].Value, System.Globalization.CultureInfo.InvariantCulture), -20, 20);
            }
        }

        Assert.Equal(sample == "sea-water", branches > 0);
    }

    [GeneratedRegex(@"branch centre (?<mm>[\d.]+) from the (?<end>[WB]\d+) end of")]
    private static partial Regex BranchPlace { get; }

    private static string Said(FitUpJob card) => string.Join(' ', Drawn.Texts(FitUpCard.Scene(card).Marks).Select(t => t.Content)).Replace('\u00a0', ' ');

    // A chain at a stand grips the pipe's outside with about 1 kN (common practice): more is held by a stand off the line, or the card says that it is not held.
    [Theory]
    [MemberData(nameof(Samples))]
    public void More_than_a_chain_clamp_holds_is_not_left_to_one(string sample)
    {
        foreach (var card in Cards(sample))
        {
            if (card.Standing.SetUp is { Rolling: { IsSteady: false } roll } setUp)
            {
                var pipe = card.Step.Joint.Both.Parts.Single(p => p.Id == setUp.Base);
                Assert.True(roll.Moment <= 1000 * pipe.Outside / 2000 || setUp.Cautions.Any(c => c.Contains("leave the hook on", StringComparison.Ordinal)), $"{card.Step.Joint.Name}: {roll.Moment} N m on {pipe.Outside}");
            }
        }
    }

    // Heat spoils a valve's seats and packing and the seal in its threads: the header's weld comes first, what is screwed on comes after it (common practice).
    [Fact]
    public void What_is_screwed_on_a_branch_goes_on_when_its_weld_is_cold()
    {
        var f = Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 800, to: vent, size: 3/4, branch schedule: 80, nipple: 75, class: 800, ends: threaded, face to face: 92, mass: 1.5}", "{go: north, by: 800, to: elbow}", "{go: up, by: 800, to: open}").Fabrication;
        var fitting = new FitJoints(f);
        var cards = Cards(f, fitting).ToList();
        var valve = f.Route.Components.Single(c => c is Rootgap.Routes.Valve);
        var branch = cards.Single(c => c.Step.Joint.Weld == FitWeld.Branch);
        Assert.False(cards.Exists(c => c.Step.Joint.Both.Contains(valve.Id)));
        Assert.Matches($"Not before this weld is cold, screw on .*{valve.Id} valve.*stem", Said(branch));
        Assert.False(cards.Exists(c => c != branch && Said(c).Contains("screw on", StringComparison.Ordinal)));
        // It goes where the outlet that it is screwed on goes.
        var tilted = FitWork.Cards(fitting.OfSpool(f.Spools[0]), [.. cards.Select(c => c.Step)], id => id == branch.Step.Joint.Name ? new(null, PoseError.None with { Rx = 0.02 }, null) : null)[^1].After;
        Assert.Equal(tilted.MotionOf(branch.Step.Joint.New.Id), tilted.MotionOf(valve.Id));
        Assert.NotEqual(Motion.None, tilted.MotionOf(valve.Id));
    }

    // A vent welded all the way: its outlet is welded to the header before the valve is on (common practice), and the welds of the valve itself say what heat does to it.
    [Fact]
    public void An_outlet_is_welded_to_its_header_before_a_valve_hangs_on_it()
    {
        var f = Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 800, to: vent, size: 3/4, branch schedule: 80, nipple: 75, class: 800, face to face: 92, mass: 1.5}", "{go: north, by: 800, to: open}").Fabrication;
        var cards = Cards(f, new(f)).ToList();
        var valve = f.Route.Components.Single(c => c is Rootgap.Routes.Valve);
        var branch = cards.Single(c => c.Step.Joint.Weld == FitWeld.Branch);
        Assert.All(cards.Where(c => c.Step.Weld.Between.Contains(valve.Id)).Select(c => c.Step.Number), n => Assert.True(branch.Step.Number < n));
        Assert.All(cards.Select(c => (IsHot: c.Step.Weld.Between.Contains(valve.Id), Said: Said(c))), c => Assert.Equal(c.IsHot, c.Said.Contains("in the heat of this weld", StringComparison.Ordinal)));
    }

    // The rim of a socket differs from maker to maker (ASME B16.11 gives its least); the figure is that of its hole's edge, which the tape can lie on.
    [Fact]
    public void A_tape_to_a_socket_lies_on_the_edge_of_its_hole()
    {
        var f = Given.Millimetres("size: 1-1/2, schedule: 80, class: 150, ends: socket", "open", "{go: north, by: 900, to: elbow}", "{go: up, by: 600, to: open}").Fabrication;
        var cards = Cards(f, new(f)).ToList();
        var elbow = cards.First(c => c.Step.Joint.New.Kind == "elbow");
        Assert.Contains("edge of its hole", Said(elbow), StringComparison.Ordinal);
        Assert.DoesNotContain("to lip", Said(elbow), StringComparison.Ordinal);
        Assert.Equal(48.3, elbow.Step.Joint.Far!.Outside, 0.1); // NPS 1-1/2, ASME B36.10M
    }

    // A chain grips with about 1 kN at the pipe's outside, a pipe vice holds about 100 N m (common practice): more is propped, also on the bench.
    [Fact]
    public void What_overhangs_the_bench_with_more_than_it_holds_is_propped()
    {
        var clamped = SampleFile.Clean.SelectMany(s => s.Packet().Fabrication is var f ? Cards(f, new(f)) : []).Where(c => c.Standing.SetUp is { Attitude: Attitude.Clamped, Cautions: [] or [_] }).ToList();
        var propped = 0;
        foreach (var card in clamped)
        {
            var clamp = card.Standing.SetUp.Stands[0];
            var outside = card.Step.Joint.Both.Parts.Single(p => p.Id == clamp.Part).Outside;
            var isHeld = Math.Max(clamp.MomentBefore ?? 0, clamp.MomentAfter ?? 0) <= Math.Max(outside / 2, card.Step.Joint.Both.Mass <= 25 ? 100 : 0);
            propped += isHeld ? 0 : 1;
            Assert.True(isHeld || Regex.IsMatch(Said(card), "prop what overhangs|keep both sides on the hook"), card.Step.Joint.Name);
        }

        Assert.NotEqual(0, propped);
    }

    // 6 at most the wall of NPS 6 schedule 40, 7.11 (ASME B36.10M, B31.3 fig. 328.5.2B), and 1.6 for the weld: the pipe's end stands 7.6 behind the face.
    [Theory]
    [InlineData("mm", "7.6 mm behind the face")]
    [InlineData("in", "19/64\" behind the face")]
    public void A_slip_on_is_set_by_how_far_the_pipes_end_stands_behind_its_face(string units, string says)
    {
        var f = Given.Run(units, "size: 6, schedule: 40, class: 150, flange: SO", "root gap: 0", "flange", units == "mm" ? "{go: north, by: 1500, to: open}" : "{go: north, by: 5'-0, to: open}").Fabrication;
        Assert.Contains(says, Said(Cards(f, new(f)).Single(c => c.Step.Joint.Weld == FitWeld.SlipOn)), StringComparison.Ordinal);
    }

    // The flange of a lap joint is loose: it goes on before the stub end is welded, and sags when it is read (common practice).
    [Fact]
    public void Of_a_lap_joint_the_stub_end_is_fitted_and_its_flange_goes_on_first()
    {
        var laps = Cards("oxygen").Where(c => c.Step.Joint.New.IsLap).ToList();
        Assert.NotEmpty(laps);
        Assert.All(laps, c => Assert.Matches("bring C\\d+ stub end with its loose flange.*loose flange goes on first", Said(c)));
        Assert.All(laps, c => Assert.Equal(((Rootgap.Routes.Flange)c.Step.Joint.New.Of).Stub!.LapDiameter, c.Step.Joint.Far!.Outside));
    }

    // A shop with tapes in inches sets out 12" and 3'-0", not 300 and 900 mm.
    [Fact]
    public void Marks_and_stands_of_a_drawing_in_inches_are_round_in_inches()
    {
        var f = Given.Inches("size: 6, schedule: 40", "open", "{go: north, by: 10'-0, to: elbow}", "{go: up, by: 2'-0, to: open}").Fabrication;
        var card = Cards(f, new(f)).First(c => c.Step.Joint.Held.Label == "1-A");
        Assert.Contains("marks 1'-0\" back", Said(card), StringComparison.Ordinal);
        Assert.Contains("underside 3'-0\" up", Said(card), StringComparison.Ordinal);
    }

    // How far it is rolled from what stood up at another joint nobody sees on the floor: what stands off the pipe is.
    [Theory]
    [MemberData(nameof(Samples))]
    public void A_card_says_which_part_looks_up_and_no_degrees_of_roll(string sample)
    {
        var cards = Cards(sample).ToList();
        Assert.All(cards, c => Assert.DoesNotMatch(@"rolled \d", Said(c)));
        foreach (var card in cards.Where(c => c.Standing.SetUp.Attitude is Attitude.Level or Attitude.Rolled))
        {
            if (LooksUp.Match(Said(card)) is { Success: true } says)
            {
                var part = card.Step.Joint.HeldSide.Parts.Single(p => p.Label == says.Groups["part"].Value);
                Assert.Equal(says.Groups["way"].Value == "up", part.Ends.Max(e => Math.Abs((e.At - card.Standing.Joint.Held.Centre).Dot(card.Standing.SetUp.Up))) is var most && part.Ends.Any(e => (e.At - card.Standing.Joint.Held.Centre).Dot(card.Standing.SetUp.Up) > most - 1e-6));
            }
        }
    }

    [GeneratedRegex(@", level, (?<part>\S+) (?<way>up|down)\b")]
    private static partial Regex LooksUp { get; }

    // Of a flange that looks north nothing can point north; plus is as one looks at the face that has the holes.
    [Fact]
    public void Pins_of_a_level_face_are_set_square_to_what_lies_on_the_floor()
    {
        var said = Said(Cards("recirculation").Single(c => c.Step.Joint.Name == "W1"));
        Assert.Contains("pins square to 1-A, east, + clockwise on the face", said, StringComparison.Ordinal);
        Assert.All(Samples.SelectMany(s => Cards(s.Data)), c => Assert.DoesNotContain("pins to north", Said(c), StringComparison.Ordinal));
    }

    // Fillets have positions of their own (ASME IX QW-461.6, from memory).
    [Fact]
    public void A_socket_is_no_groove()
    {
        Assert.All(Samples.SelectMany(s => Cards(s.Data)).Where(c => c.Step.Joint.Weld is FitWeld.Socket or FitWeld.SlipOn), c => Assert.DoesNotContain("G", FitUpCard.Position(c), StringComparison.Ordinal));
        Assert.All(Samples.SelectMany(s => Cards(s.Data)).Where(c => c.Step.Joint.Weld == FitWeld.Butt), c => Assert.Contains("G", FitUpCard.Position(c), StringComparison.Ordinal));
    }

    // A fitter works page by page: no card stands before one that is made before it.
    [Theory]
    [MemberData(nameof(Samples))]
    public void Cards_lie_in_the_order_of_work(string sample)
    {
        var packet = SampleFile.Clean.Single(s => s.Name == sample).Packet();
        var stack = new CardStack(packet.ToJob(Paper.A4), new(packet.Fabrication), packet.Fabrication.Spools);
        var steps = stack.Pages().SelectMany(p => Drawn.Texts(p.Marks)).Select(t => (Text: t.Content, t.Style.Ink)).ToList();
        List<(string Spool, int Step)> seen = [];
        for (var i = 1; i < steps.Count; i++)
        {
            if (StepOf.Match(steps[i].Text) is { Success: true } step && steps[i - 1].Text.StartsWith("spool ", StringComparison.Ordinal))
                seen.Add((steps[i - 1].Text, int.Parse(step.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture)));
        }

        Assert.NotEmpty(seen);
        Assert.Equal(packet.Fabrication.Spools.SelectMany(s => seen.Where(c => c.Spool == "spool " + s.Name).OrderBy(c => c.Step)), seen);
    }

    [GeneratedRegex(@"^(\d+) / \d+$")]
    private static partial Regex StepOf { get; }

    // An arm's length: nothing on a card is smaller than 2.5 mm, no figure to be read and written against is set smaller to fit, and the picture keeps its room.
    [Theory]
    [MemberData(nameof(Samples))]
    public void Nothing_on_a_card_is_set_smaller_to_fit(string sample)
    {
        foreach (var card in Cards(sample))
        {
            var scene = FitUpCard.Scene(card);
            Assert.All(Drawn.Texts(scene.Marks).Where(t => t.Content.Length > 0), t => Assert.True(t.Style.Height >= 2.5 - 1e-9, $"{card.Step.Joint.Name}: {t.Content} {t.Style.Height}"));
            Assert.True(scene.Paper.Height <= 260, $"{card.Step.Joint.Name} is longer than a page");
        }
    }

    // An elbow held with a level pipe behind it, a pipe going up from it, much to be said of how it stands: the parts once were a few millimetres wide on the card.
    [Fact]
    public void A_weld_can_be_seen_whatever_the_proportions()
    {
        var card = Cards("drain").Single(c => c.Step.Joint.Name == "W11");
        var scene = FitUpCard.Scene(card);
        // Left of the readings, between the head and the words.
        var lines = Drawn.Lines(scene.Marks).Where(l => Inside(l.A) && Inside(l.B)).ToList();
        bool Inside(Spot s) => s.X is > 7 and < 55.5 && s.Y is > 18 and < 60;
        Assert.InRange(lines.Max(l => Math.Max(l.A.X, l.B.X)) - lines.Min(l => Math.Min(l.A.X, l.B.X)), 18, 50);
        Assert.Contains("broken off", string.Join(' ', Drawn.Texts(scene.Marks).Select(t => t.Content)), StringComparison.Ordinal);
    }
}
