namespace Rootgap.Measure;

/// <summary>Degrees outside, radians inside.</summary>
public static class Angles
{
    public static double ToDegrees(double radians) => radians * (180 / Math.PI);

    public static double ToRadians(double degrees) => degrees * (Math.PI / 180);
}
