using System.Globalization;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.Sheets.Isometrics;

/// <summary>The isometrics of the samples, as a person has looked at them and accepted them.</summary>
public class AcceptedSheetsTest
{
    public static TheoryData<string> Names => [.. SampleFile.Clean.Select(s => s.Name)];

    /// <summary>Where a change of the program is meant to change a sheet, run once with ROOTGAP_ACCEPT=1 and look at the pictures before they are committed.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void The_isometric_is_the_accepted_one(string name)
    {
        var sample = SampleFile.Clean.Single(s => s.Name == name);
        var pages = IsometricPages.Of(sample.Packet().ToJob(Paper.A4), withLists: false);
        foreach (var (scene, i) in new Booklet(name, pages).Scenes().Select((s, i) => (s, i + 1)))
        {
            var svg = SvgWriter.Write(scene);
            var accepted = Path.Combine(sample.Folder, "accepted", string.Create(CultureInfo.InvariantCulture, $"{name}.isometric-{i}.svg"));
            if (Environment.GetEnvironmentVariable("ROOTGAP_ACCEPT") == "1")
                File.WriteAllText(accepted, svg);
            Assert.True(File.Exists(accepted), $"{accepted} is not there: look at the sheet, then accept it with ROOTGAP_ACCEPT=1.");
            Assert.True(File.ReadAllText(accepted) == svg, $"{Path.GetFileName(accepted)} is no longer what this program draws. If that is meant, accept the new sheet with ROOTGAP_ACCEPT=1 and look at it.");
        }
    }
}
