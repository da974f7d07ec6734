using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A figure of the service that cannot be read, so that what hangs on it is not checked.</summary>
internal sealed class ServiceFigureUnread : Rule
{
    public override string Name => "service-figure-unread";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A pressure, temperature or share of the service has no unit, or one that nobody knows.";
    public override string Why => "The rules that hold it against classes, tests and examination are silent then.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        (string Key, string Text, double? Value, string Write)[] figures =
        [
            ("design pressure", service.DesignPressure, ServiceFigures.Bar(service.DesignPressure), "10 bar, 150 psi, 1 MPa"),
            ("test pressure", service.TestPressure, ServiceFigures.Bar(service.TestPressure), "15 bar, 225 psi, 1.5 MPa"),
            ("design temperature", service.DesignTemperature, ServiceFigures.Celsius(service.DesignTemperature), "50 C, 120 F"),
            ("examination", service.Examination, ServiceFigures.Percent(service.Examination), "5 %, 100 % RT"),
        ];
        foreach (var (key, text, value, write) in figures)
        {
            if (text.Length > 0 && value is null && text.Any(char.IsAsciiDigit))
                yield return Found(service.Source, key, $"\"{text}\" is not read as a {key}: nothing is checked against it.", $"Write the figure with its unit: {write}.");
        }
    }
}
