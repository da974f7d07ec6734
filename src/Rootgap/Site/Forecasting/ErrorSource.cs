using Rootgap.Drawings;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Site.Forecasting;

/// <summary>One error on the way to a weld: independent of all others.</summary>
/// <param name="At">Where it comes from: <c>W3</c>, <c>C4</c>, <c>P2</c>, <c>spool 2</c>, <c>B1 of other</c>, <c>level 3</c>.</param>
/// <param name="Error">What it is: <c>x</c> to <c>rz</c>, <c>shrinkage</c>, <c>cut</c>, <c>fitting</c>, <c>outside x</c>, <c>level</c>.</param>
/// <param name="Component">Which of the six of its stage it adds to, 0 to 5.</param>
internal sealed record ErrorSource(string At, string Error, Spread Spread, int Component);

/// <summary>Where errors act together: about one place, in one set of axes. On a way the stages follow one another from the thing outside to the weld.</summary>
internal sealed class ErrorStage(JointAxes axes, IReadOnlyList<ErrorSource> sources, StageControl? control = null)
{
    public JointAxes Axes { get; } = axes;

    public IReadOnlyList<ErrorSource> Sources { get; } = sources;

    /// <summary>How far the joint here can be set on purpose; null where nothing can be set.</summary>
    public StageControl? Control { get; } = control;

    /// <summary>What is known to be out here, as it was measured: mm and radians.</summary>
    public PoseError Known { get; init; }

    /// <summary>A spool is set here with a level or a string: of what the way brings so far, only the place and the turns not taken out stay.</summary>
    public bool TakesTilt { get; init; }

    /// <summary>Its turn about the upright is taken out.</summary>
    public bool TakesTurn { get; init; }

    /// <summary>A support is set to its height here: of what the way brings so far, nothing up or down stays at this place.</summary>
    public bool TakesHeight { get; init; }

    public bool TakesAnything => TakesTilt || TakesTurn || TakesHeight;

    /// <summary>A motion with what this stage takes out of it, about its own centre.</summary>
    public Motion Straightened(in Motion motion) => TakesAnything ? Motion.About(Axes.Centre, LeftOfShift(motion.ShiftAt(Axes.Centre)), Left(motion.Turn)) : motion;

    /// <summary>What is left of a shift of this stage's centre.</summary>
    public Vector LeftOfShift(Vector shift) => TakesHeight ? shift with { Z = 0 } : shift;

    /// <summary>What is left of a turn.</summary>
    public Vector Left(Vector turn) => new(TakesTilt ? 0 : turn.X, TakesTilt ? 0 : turn.Y, TakesTurn ? 0 : turn.Z);

    /// <summary>The motion of this stage's own errors.</summary>
    public Motion MotionOf(ReadOnlySpan<double> six) => Axes.MotionOf(PoseError.From(six));
}

/// <summary>How far a joint may be set away from its middle, by ASME B31.3 335.1.1 and the shop's limits: mm and radians.</summary>
/// <param name="Shift">Square to the pipe, resultant; where <paramref name="RollArm"/> is given, together with the roll at that radius.</param>
/// <param name="Along">Either way along the pipe.</param>
/// <param name="Tilt">Out of line, resultant.</param>
/// <param name="Roll">About the pipe.</param>
/// <param name="RollArm">Radius of the bolt circle, mm: shift and roll share one play there. 0 at a weld.</param>
internal sealed record StageControl(double Shift, double Along, double Tilt, double Roll, double RollArm)
{
    /// <summary>Pipe that may be added or cut away along the pipe, mm, besides <see cref="Along"/>: the extra of another final-fit weld on the way.</summary>
    public double Extra { get; init; }
}
