namespace Rootgap.FitUp;

/// <summary>What the readings allow to be said of a joint.</summary>
public enum Verdict
{
    /// <summary>Nothing was read.</summary>
    NothingRead,

    /// <summary>A component or a single reading is outside, or readings contradict each other.</summary>
    NotWithin,

    /// <summary>Nothing that was read is outside, and not all was seen.</summary>
    AsFarAsRead,

    /// <summary>All is seen, each component and each reading is inside.</summary>
    Within,
}
