using Rootgap.Drawings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>An end of the drawing that stands fast: a flange on something outside the drawing, an existing pipe, the next drawing.</summary>
/// <param name="Part">Id of the part at that end.</param>
/// <param name="Joint">The joint there; null where the pipe just goes on in another drawing.</param>
internal readonly record struct FixedEnd(string Part, SourceRow Row, string Says, Joint? Joint)
{
    /// <summary>Whether the line goes on there in another drawing.</summary>
    public bool GoesOn => Row.Has("continues");

    public static List<FixedEnd> AllOf(Route route)
    {
        var ends = new List<FixedEnd>();
        foreach (var joint in route.Joints)
        {
            if (joint.Between is [var part] && joint.Kind is JointKind.Bolted or JointKind.Butt)
                ends.Add(new(part, route.EndRow(joint), joint.Kind == JointKind.Bolted ? "flange" : route.GoesOn(joint) ? "weld to the next drawing's pipe" : "weld to the existing pipe", joint));
        }

        foreach (var pipe in route.Pipes)
        {
            var run = route.Runs[pipe.Run].Run;
            if (pipe.FreeStart is not null && run.Start.Ends is OpenPoint { Continues: not null })
                ends.Add(new(pipe.Id, run.Start.Source, "end that goes on in another drawing", null));
            if (pipe.FreeEnd is not null && run.Legs[pipe.LastLeg].To is OpenPoint { Continues: not null })
                ends.Add(new(pipe.Id, run.Legs[pipe.LastLeg].Source, "end that goes on in another drawing", null));
        }

        return ends;
    }
}

/// <summary>Parts that still hang together when some joints are thought away.</summary>
internal sealed class Parted
{
    private readonly Dictionary<string, string> parent = new(StringComparer.Ordinal);

    public Parted(IReadOnlyList<Joint> joints, Func<Joint, bool> holds)
    {
        foreach (var joint in joints)
        {
            if (joint.Between is [var a, var b] && holds(joint))
                parent[GroupOf(a)] = GroupOf(b);
        }
    }

    /// <summary>One part's id that stands for all of the group.</summary>
    public string GroupOf(string part)
    {
        if (!parent.TryGetValue(part, out var up))
            return parent[part] = part;
        while (!ReferenceEquals(up, part) && up != part)
        {
            // The way up is halved for the next who comes.
            var above = parent[up];
            parent[part] = above;
            (part, up) = (up, above);
        }

        return part;
    }
}
