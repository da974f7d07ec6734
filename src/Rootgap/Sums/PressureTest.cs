using Rootgap.Measure;

namespace Rootgap.Sums;

public enum TestMedium
{
    Water,

    /// <summary>Air or nitrogen.</summary>
    Air,
}

/// <summary>The sums of a pressure test. The pressure itself is the engineer's.</summary>
public static class PressureTest
{
    /// <summary>A metre of fresh water, bar: 1000 kg/m³ by 9.81 m/s².</summary>
    public const double BarAMetre = 0.0981;

    /// <summary>Density of fresh water, kg/mm³.</summary>
    public const double WaterDensity = 1e-6;

    /// <summary>Air round about, bar, as ASME PCC-2 501-II counts it.</summary>
    public const double Atmosphere = 1.01;

    /// <summary>Ratio of the specific heats of air and nitrogen.</summary>
    public const double Kappa = 1.4;

    /// <summary>Energy of a kilogram of TNT, J (ASME PCC-2 501-II).</summary>
    public const double Tnt = 4.26692e6;

    /// <summary>Stored energies at which ASME PCC-2 501-III changes what it asks for, J.</summary>
    public const double FirstStep = 135.5e6;

    public const double SecondStep = 271e6;

    public const double WaterShare = 1.5;
    public const double AirShare = 1.1;

    public const string WaterSource = "ASME B31.3 345.4.2: 1.5 × design pressure × ST/S; the ratio of the stresses from memory, and the engineer's";
    public const string AirSource = "ASME B31.3 345.5.4: 1.1 × design pressure";
    public const string ReliefSource = "ASME B31.3 345.5.2: over the test pressure by the lesser of 3.45 bar and 10 %";
    public const string FlangeSource = "ASME B16.5 2.6: 1.5 × the rating at 38 °C, up to the next bar or 25 psi";
    public const string EnergySource = "ASME PCC-2 501-II, absolute pressures, k 1.4 for air and nitrogen";

    /// <summary>The relief device of an air test is set no more than this over the test, bar (50 psi).</summary>
    public const double MostRelief = 3.45;

    /// <summary>The pressure at one height where it is known at another, bar; heights in mm. Air weighs nothing here.</summary>
    /// <param name="heavy">Density of the liquid against fresh water.</param>
    public static double At(double bar, double known, double height, TestMedium medium, double heavy = 1) =>
        medium == TestMedium.Water ? bar + ((known - height) / 1000 * BarAMetre * heavy) : bar;

    /// <summary>The least test pressure for a design pressure, bar.</summary>
    /// <param name="stressRatio">Allowable stress at the test against that at the design temperature, where the engineer gives it.</param>
    public static double Least(double design, TestMedium medium, double stressRatio = 1) =>
        medium == TestMedium.Water ? WaterShare * design * stressRatio : AirShare * design;

    /// <summary>The most at which the relief device of an air test may be set, bar.</summary>
    public static double Relief(double test) => test + Math.Min(MostRelief, test / 10);

    /// <summary>The most that flanged joints may be tested to, bar: 1.5 times the cold rating, up to the next bar, or the next 25 psi.</summary>
    public static double MostOfFlanges(double coldRating, Units units)
    {
        var step = units == Units.Inches ? 25 * Amount.Psi : 1;
        return Math.Ceiling((WaterShare * coldRating / step) - 1e-9) * step;
    }

    /// <summary>The energy of a pressed gas, J.</summary>
    /// <param name="bar">Over the air round about.</param>
    /// <param name="volume">mm³.</param>
    public static double StoredEnergy(double bar, double volume, double kappa = Kappa, double atmosphere = Atmosphere)
    {
        var absolute = bar + atmosphere;
        return absolute * 1e5 * (volume / 1e9) / (kappa - 1) * (1 - Math.Pow(atmosphere / absolute, (kappa - 1) / kappa));
    }

    /// <summary>Where a stored energy stands among the steps of ASME PCC-2 501-III, which are 100 and 200 million ft lb.</summary>
    public static string Step(double energy, Units units = Units.Millimetres)
    {
        var (first, second, unit) = units == Units.Inches ? ("100", "200", "million ft lb") : ("135.5", "271", "MJ");
        return energy <= FirstStep ? $"up to {first} {unit}: first step of ASME PCC-2 501-III"
            : energy <= SecondStep ? $"over {first} and up to {second} {unit}: second step of ASME PCC-2 501-III"
            : $"over {second} {unit}: third step of ASME PCC-2 501-III";
    }

    public static IEnumerable<Sum> EnergySums(double bar, double volume, double kappa = Kappa, double atmosphere = Atmosphere)
    {
        var energy = StoredEnergy(bar, volume, kappa, atmosphere);
        yield return new("absolute test pressure", bar + atmosphere, Quantity.Pressure, "test pressure + air round about", EnergySource);
        yield return new("stored energy", energy, Quantity.Energy, "p V / (k − 1) × (1 − (p0 / p)^((k − 1) / k))", EnergySource);
        yield return new("as TNT", energy / Tnt, Quantity.Mass, "stored energy / 4.26692 MJ a kg", Step(energy) + "; the distance is the test engineer's");
    }
}
