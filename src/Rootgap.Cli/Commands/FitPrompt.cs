using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Cli.Commands;

/// <summary>Asks for the readings of a joint, one after the other, as they are taken.</summary>
internal static class FitPrompt
{
    public static List<Taken> Ask(StandingJoint joint, IReadOnlyList<Target> targets, TextReader from, TextWriter to)
    {
        List<Taken> taken = [];
        to.WriteLine($"{joint.Joint.Name}: type each reading, or nothing to leave it out; \"end\" when done.");
        foreach (var target in targets)
        {
            while (true)
            {
                var unit = target.Reading.IsAngle ? "degrees" : "mm";
                var value = target.Reading.IsAngle ? Angles.ToDegrees(target.Value) : target.Value;
                to.Write(string.Create(CultureInfo.InvariantCulture, $"  {target.Reading.Text} (should be {value:0.##} {unit}): "));
                if (from.ReadLine() is not { } line || line.Trim().Equals("end", StringComparison.OrdinalIgnoreCase))
                {
                    to.WriteLine();
                    return taken;
                }
                if (line.Trim().Length == 0)
                    break;
                if (!double.TryParse(line.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out var number))
                {
                    to.WriteLine($"    \"{line.Trim()}\" is not a number: write it such as 612.5.");
                    continue;
                }
                var reading = new Taken(target.Reading, target.Reading.IsAngle ? Angles.ToRadians(number) : number);
                if (FitReadings.Wrong(reading, joint) is var (message, remedy))
                {
                    to.WriteLine($"    {message} {remedy}");
                    continue;
                }
                taken.Add(reading);
                break;
            }
        }
        return taken;
    }
}
