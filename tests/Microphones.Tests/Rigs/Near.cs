using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Tests.Rigs;

/// <summary>Checks and short-hands the rig tests share.</summary>
internal static class Near
{
    public static readonly Hertz OneKilohertz = new(1000);

    public static FirstOrderPattern Pattern(string name)
        => PatternNames.TryParse(name, out var pattern) ? pattern : throw new InvalidOperationException(name);

    /// <summary>Within half a unit of the last printed digit; null where a dash was printed.</summary>
    public static void Printed(double? expected, double? actual, double halfUnit)
    {
        if (expected is not { } number)
            Assert.Null(actual);
        else
            Assert.InRange(actual ?? double.NaN, number - halfUnit - 1e-9, number + halfUnit + 1e-9);
    }
}

/// <summary>Any pattern made first order's long way: it does not say what it is, so everything about it is computed numerically.</summary>
internal sealed class Unnamed(double omniShare) : IPattern
{
    public string Name => "unnamed";

    public double Gain(double angleRadians, double frequencyHertz) => omniShare + ((1 - omniShare) * Math.Cos(angleRadians));
}
