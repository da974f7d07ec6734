using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Cli.Commands;

/// <summary>Asks for the readings of a joint, one after the other, as they are taken.</summary>
internal static class FitPrompt
{
    public static List<Taken> Ask(StandingJoint joint, IReadOnlyList<Target> targets, FitWords words, TextReader from, TextWriter to)
    {
        List<Taken> taken = [];
        to.WriteLine($"{joint.Joint.Name}: type each reading, or nothing to leave it out; \"end\" when done.");
        foreach (var target in targets)
        {
            while (true)
            {
                var unit = target.Reading.IsAngle || words.Units == Units.Inches ? "" : " mm";
                to.Write($"  {target.Reading.Text} (should be {words.Show(target.Reading, target.Value)}{unit}): ");
                if (from.ReadLine() is not { } line || line.Trim().Equals("end", StringComparison.OrdinalIgnoreCase))
                {
                    to.WriteLine();
                    return taken;
                }
                if (line.Trim().Length == 0)
                    break;
                double number = 0;
                var isLength = !target.Reading.IsAngle && LengthText.TryParse(line.Trim(), words.Units, out number);
                if (!isLength && !(double.TryParse(line.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out number) && target.Reading.IsAngle))
                {
                    to.WriteLine($"    \"{line.Trim()}\" is not a {(target.Reading.IsAngle ? "number: write it such as 0.3" : words.Units == Units.Inches ? "length: write it such as 24 1/16" : "length: write it such as 612.5")}.");
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
