using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

/// <summary>
/// A spool of six joints followed by hand: flange, pipe, elbow, pipe, elbow, pipe, flange, NPS 4. ASME B36.10M: outside 114.3, wall 6.02, 16.07 kg/m;
/// ASME B16.9 long radius: centre to end 152; ASME B16.5 class 150 weld neck: through hub 76, outside 229, raised face 157.2 (mm columns).
/// </summary>
public class SixJointsByHandTest
{
    private static readonly FitSpool Spool = Make();

    private static FitSpool Make()
    {
        var f = Given.Run("mm", "size: 4, schedule: 40, class: 150, material: A106-B", "root gap: 3.2", "flange",
            "{go: east, by: 1500, to: elbow}", "{go: north, by: 1200, to: elbow}", "{go: east, by: 1000, to: flange}").Fabrication;
        return new FitJoints(f).OfSpool(f.Spools[0]);
    }

    private static IReadOnlyList<FitStep> Steps()
    {
        // C1 is the first flange's gasket. W1 C2-P1, W2 P1-C3, W3 C3-P2, W4 P2-C4, W5 C4-P3, W6 P3-C5.
        var (steps, refused) = FitOrder.Of(Spool, [new(1, Attitude.Rolled, 90), new(0), new(2), new(4), new(3), new(5)]);
        Assert.Null(refused);
        return steps;
    }

    // 1500 - 76 - 152 - 2 x 3.2 = 1265.6; 1200 - 2 x 152 - 6.4 = 889.6; 1000 - 152 - 76 - 6.4 = 765.6 mm, at 16.07 kg/m.
    private const double First = 1.2656 * 16.07, Second = 0.8896 * 16.07, Third = 0.7656 * 16.07;

    [Fact]
    public void Each_step_holds_and_brings_what_hangs_together_there()
    {
        var steps = Steps();
        string[] held = ["P1", "P1 C3", "C2 P1 C3", "P3", "C2 P1 C3 P2", "C2 P1 C3 P2 C4 P3"];
        string[] brought = ["C3", "C2", "P2", "C4", "C4 P3", "C5"];
        Assert.Equal(held, steps.Select(s => s.Joint.HeldSide.Key), StringComparer.Ordinal);
        Assert.Equal(brought, steps.Select(s => s.Joint.Brought.Key), StringComparer.Ordinal);
        Assert.Equal(First, steps[0].Joint.HeldSide.Mass, 0.01 * First);
        Assert.Equal(Second, steps[2].Lift, 0.01 * Second);
        // The elbow and the pipe that hang together are lifted together.
        Assert.Equal(steps[3].Lift + Third, steps[4].Lift, 0.01 * Third);
    }

    [Fact]
    public void The_far_side_is_read_on_what_is_still_open()
    {
        var cards = FitWork.Cards(Spool, Steps());
        // W4: the elbow's outlet is closed by the third pipe, so its far end is read; W6: the flange's own face.
        Assert.Equal(["C3", "C2", "P2", "C4", "P3", "C5"], cards.Select(c => c.Standing.Joint.End!.Id), StringComparer.Ordinal);
        // W3: the held part is an elbow: there is no mark to tape from, and P2's round end shows no roll.
        Assert.DoesNotContain(cards[2].Targets, t => t.Reading is Reading.Tape or Reading.Plumb);
        // On its own axis the first pipe stands level: the second leads off sideways from 900 + 57.15 over the floor.
        Assert.Equal(957.15, cards[2].Targets.Single(t => t.Reading == new Reading.Height(null)).Value, 0.01);
    }

    // The first elbow rolled by one degree: the second pipe's far end, 152 + 3.2 + 889.6 from the first pipe's axis (1.6 of each gap on either side of a weld's middle), rises or falls by 1044.8 sin 1.
    [Fact]
    public void A_roll_that_stays_at_the_first_elbow_is_felt_at_the_next_pipes_end()
    {
        var cards = FitWork.Cards(Spool, Steps(), id => id == "W2" ? new(null, PoseError.None with { Rz = Angles.ToRadians(1) }, null) : null);
        var height = cards[2].Targets.Single(t => t.Reading == new Reading.Height(null));
        Assert.Equal(957.15, height.Drawn, 0.01);
        Assert.Equal(1044.8 * Math.Sin(Math.PI / 180), Math.Abs(height.Value - height.Drawn), 0.02);
        // Gaps and steps are asked as drawn: the next part is laid true to the held one.
        Assert.All(cards[2].Targets.Where(t => t.Reading is Reading.Gap), t => Assert.Equal(3.2, t.Value, 1e-9));
        // Seen from the first flange the far end of what is brought swings with it, and the card says that this joint can take it back.
        Assert.NotNull(cards[2].EndOff);
        Assert.Contains(cards[2].EndOff!.By, b => b.Joint == "W3");
        Assert.Equal("W2", Assert.Single(cards[2].Kept).Joint);
    }

    [Fact]
    public void A_gap_left_wide_makes_the_spool_longer_by_as_much()
    {
        var cards = FitWork.Cards(Spool, Steps(), id => id == "W3" ? new(null, PoseError.None with { Z = 2 }, null) : null);
        // From W4 on, the first flange to the far end: 2 mm north of its place.
        Assert.Equal(2, cards[4].EndOff!.Shift.Length, 1e-6);
        Assert.Equal(2, Math.Abs(cards[4].EndOff!.Shift.Y), 1e-6);
        // W4 lies across it in the same line: a gap 2 mm narrower takes it back.
        var back = cards[4].EndOff!.By.Single(b => b.Joint == "W4");
        Assert.Equal(-2, back.By.Z, 1e-6);
        Assert.False(back.IsWithin);
    }

    // The three conditions: every component inside, every reading inside by itself, and all of it seen.
    [Fact]
    public void One_gap_far_off_is_never_within_and_few_readings_are_not_enough()
    {
        var card = FitWork.Cards(Spool, Steps())[0];
        Verdict Say(params Taken[] taken) => Diagnosis.Of(card.Standing, card.Limits, taken, card.Targets).Verdict;
        Assert.Equal(Verdict.NothingRead, Say());
        Assert.Equal(Verdict.NotWithin, Say(new Taken(new Reading.Gap(12), 20)));
        Assert.Equal(Verdict.NotWithin, Say(new Taken(new Reading.Gap(12), -5)));
        Assert.Equal(Verdict.AsFarAsRead, Say(new Taken(new Reading.Gap(12), 3.2)));
        Assert.Equal(Verdict.Within, Say([.. card.Targets.Select(t => new Taken(t.Reading, t.Value))]));
        Assert.Equal(Verdict.NotWithin, Say(new Taken(new Reading.Gap(12), 3.2), new Taken(new Reading.Gap(12), 3.4)));
        var unseen = Diagnosis.Of(card.Standing, card.Limits, [new(new Reading.Gap(12), 3.2)], card.Targets);
        Assert.All(unseen.Unseen, i => Assert.Equal(PoseError.Prior[i], unseen.Sd[i], 1e-12));
        Assert.InRange(unseen.Next.Count, 2, 3);
    }

    // A round rim shows no roll: a flange turned in its holes by 1.5 degrees reads level on its rim, and only the holes tell.
    [Fact]
    public void A_flange_turned_in_its_holes_is_told_by_the_holes_alone()
    {
        var card = FitWork.Cards(Spool, Steps())[5];
        var turned = PoseError.None with { Rz = Angles.ToRadians(1.5) };
        var taken = card.Targets.Where(t => t.Reading is not Reading.TurnMark).Select(t => new Taken(t.Reading, t.Reading.Measure(card.Standing, turned))).ToList();
        Assert.All(taken.Where(t => t.Reading is not (Reading.Holes or Reading.HoleLine)), t => Assert.Equal(card.Targets.Single(g => g.Reading == t.Reading).Value, t.Value, t.Reading is Reading.HiLo or Reading.StraightEdge ? 0.02 : 1e-6));
        var found = Diagnosis.Of(card.Standing, card.Limits, taken, card.Targets);
        Assert.Equal(Verdict.NotWithin, found.Verdict);
        Assert.Equal(1.5, Angles.ToDegrees(Math.Abs(found.Error.Rz)), 0.01);
        Assert.Empty(found.Again);
    }

    // With 1 mm of shrinkage at each butt weld of a pipe: tacked, the flange stands 1 mm farther out; welded it stands as drawn.
    [Fact]
    public void Read_after_welding_a_joint_has_drawn_in_and_what_it_pulled_moves_the_end()
    {
        var f = Given.Run("mm", "size: 4, schedule: 40, class: 150, material: A106-B", "root gap: 3.2, shrinkage: 1", "flange",
            "{go: east, by: 1500, to: elbow}", "{go: north, by: 1200, to: elbow}", "{go: east, by: 1000, to: flange}").Fabrication;
        var spool = new FitJoints(f).OfSpool(f.Spools[0]);
        var (steps, _) = FitOrder.Of(spool, [new(1, Attitude.Rolled, 90), new(0), new(2), new(4), new(3), new(5)]);
        double Square(JointAsMade? made) => FitWork.Cards(spool, steps, id => id == "W1" ? made : null)[1].Standing is var s ? (s.Joint.Far!.Centre - s.Joint.Centre).Dot(s.Axis) : 0;
        Assert.Equal(Square(new([], null, null, IsWelded: true)), Square(null), 1e-6);
        // The weld's middle itself lies 1 mm farther out on the pipe while it is tacked.
        double Out(JointAsMade? made) => FitWork.Cards(spool, steps, id => id == "W1" ? made : null)[1].Standing.Joint is var j ? (j.Far!.Centre - Point.Origin).Dot(j.Axis) : 0;
        Assert.Equal(1, Out(null) - Out(new([], null, null, IsWelded: true)), 1e-6);
        Assert.DoesNotContain(FitWork.Cards(spool, steps, id => id == "W1" ? new([], null, null, IsWelded: true) : null)[1].Targets, t => t.Reading is Reading.Gap or Reading.HiLo);

        // Drawn in as allowed for, the ends are where they should be; pulled half a millimetre more, the last flange comes as much short.
        var check = FinalCheck.Welded(spool);
        PoseError Left(double z) => EndLeft.Of(check, steps, id => id == "W3" ? new(null, PoseError.None with { Z = z }, null, IsWelded: true) : null).Single().Error;
        Assert.True(Left(0) is { X: var x, Y: var y, Z: var w } && Math.Max(Math.Abs(x), Math.Max(Math.Abs(y), Math.Abs(w))) < 1e-6);
        Assert.Equal(0.5, Left(-0.5).X, 1e-6);
        // Tacked throughout the spool is longer by the millimetre of each of its welds.
        var tacked = FinalCheck.Tacked(spool, steps);
        Assert.Equal(4, (tacked.Ends[1].Centre - check.Ends[1].Centre).X - (tacked.Ends[0].Centre - check.Ends[0].Centre).X, 1e-6);
        Assert.Equal(2, (tacked.Ends[1].Centre - check.Ends[1].Centre).Y - (tacked.Ends[0].Centre - check.Ends[0].Centre).Y, 1e-6);
    }

    // An elbow made 1 mm out of square across its end: fitted true, its face leans by 1 / 114.3, and the readings on it say so; told of it, the joint is within.
    [Fact]
    public void A_fitting_out_of_square_is_not_taken_for_a_joint_out_of_line()
    {
        // Level, its face up, where a level shows it.
        var (steps, _) = FitOrder.Of(Spool, [new(1, Attitude.Level), new(0)]);
        var card = FitWork.Cards(Spool, steps)[0];
        Assert.Equal("C3", card.Standing.Joint.New.Id);
        var lean = Math.Atan(Math.Tan(1 / card.Standing.Joint.Far!.Outside));
        // What is read with the joint true and the face so: the far end's normal turned by hand about its own 3 o'clock.
        var far = card.Standing.Joint.Far;
        var made = new StandingJoint(card.Standing.Joint with { Far = far with { Normal = (far.Normal - (card.Standing.Carried(card.Standing.Twelve) * lean)).Unit } }, card.Standing.SetUp, card.Standing.Mark);
        List<Taken> read = [.. card.Targets.Select(t => new Taken(t.Reading, t.Reading.Measure(made, PoseError.None)))];
        var plain = Diagnosis.Of(card.Standing, card.Limits, read, card.Targets);
        var told = Diagnosis.Of(card.Standing, card.Limits, [.. read, new(new Reading.OutOfSquare(12), 1)], card.Targets);
        Assert.True(plain.Error.Tilt + Math.Abs(plain.Error.Rz) > lean / 20 || plain.Again.Count > 0 || plain.Doubtful, $"{plain.Error}");
        Assert.True(told.Error.Tilt + Math.Abs(told.Error.Rz) < 1e-6 && told.Error.Shift < 1e-3, $"{told.Error}");
        Assert.DoesNotContain(told.Outside, t => t.Reading is not Reading.OutOfSquare);

        // What comes next to it feels the lean: the free face stays at its place and looks where it was made to look.
        var next = FitWork.Cards(Spool, steps, id => id == card.Step.Weld.Id ? new([.. read, new(new Reading.OutOfSquare(12), 1)], null, null) : null)[1];
        var stays = card.Standing.MotionOf(Assert.Single(next.Kept).Error);
        Assert.Equal(0, stays.Of(far.Normal).AngleTo(made.Joint.Far!.Normal), 1e-6);
        Assert.Equal(0, stays.ShiftAt(far.Centre).Length, 1e-3);

        // Read on both sides it is the same lean and no second one.
        var twice = Diagnosis.Of(card.Standing, card.Limits, [.. read, new(new Reading.OutOfSquare(12), 1), new(new Reading.OutOfSquare(6), -1)], card.Targets);
        Assert.True(twice.Error.Tilt + Math.Abs(twice.Error.Rz) < 1e-6, $"{twice.Error}");
    }

    [Fact]
    public void A_going_over_after_a_tack_says_what_it_has_moved()
    {
        var card = FitWork.Cards(Spool, Steps())[0];
        Diagnosis At(PoseError e) => Diagnosis.Of(card.Standing, card.Limits, [.. card.Targets.Select(t => new Taken(t.Reading, t.Reading.Measure(card.Standing, e)))], card.Targets);
        var before = At(PoseError.None);
        Assert.Contains("nothing has moved", Remedy.Since(before, At(PoseError.None)), StringComparison.Ordinal);
        var says = Remedy.Since(before, At(PoseError.None with { Z = -0.8, Ry = Angles.ToRadians(0.5) }));
        Assert.Contains("0.8 mm narrower", says, StringComparison.Ordinal);
        Assert.Contains("0.50 degrees leaning to 9", says, StringComparison.Ordinal);
    }

    // W3: an elbow is held, which bears no marks. From the first flange's face, 1500 west and 1044.8 south of the second pipe's end, its lip 115 from the axis (B16.5: 230) to the pipe's 57.15.
    [Fact]
    public void Where_a_fitting_is_held_the_tape_begins_at_an_open_end_that_is_tacked_already()
    {
        var card = FitWork.Cards(Spool, Steps())[2];
        Assert.Equal("C2", card.Standing.Joint.HeldEnd!.Id);
        var tapes = card.Targets.Where(t => t.Reading is Reading.EndTape).ToList();
        Assert.NotEmpty(tapes);
        // The lips that look the line's own up and down lie square to both ways.
        var at = StandingJoint.Clock.Where(q => Math.Abs(card.Standing.Q(q).Dot(Vector.Up)) > 0.99);
        Assert.Contains(tapes, t => at.Contains(t.Reading.Position!.Value));
        Assert.All(tapes.Where(t => at.Contains(t.Reading.Position!.Value)), t => Assert.Equal(Math.Sqrt((1500 * 1500) + (1044.8 * 1044.8) + (57.85 * 57.85)), t.Value, 0.05));
        // Only the new part moves: a gap 2 mm wider carries its lip 2 mm along the pipe.
        var tape = tapes.First(t => at.Contains(t.Reading.Position!.Value));
        Assert.Equal(Math.Sqrt((1500 * 1500) + (1046.8 * 1046.8) + (57.85 * 57.85)), tape.Reading.Measure(card.Standing, PoseError.None with { Z = 2 }), 0.05);
        Assert.DoesNotContain(FitWork.Cards(Spool, Steps())[0].Targets, t => t.Reading is Reading.EndTape);
    }
}
