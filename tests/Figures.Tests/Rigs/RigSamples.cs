using Athwart.Figures.Rigs;

namespace Athwart.Figures.Tests.Rigs;

/// <summary>Inputs of the pictures of rigs: a first-order mid with a figure-8 side, from the formulas.</summary>
internal static class RigSamples
{
    public static FigureLabel Label { get; } = new("rig", "A <rig>", "What it says & means");

    public static WedgeSubject Boat { get; } = new(20, -20, 12, true, true);

    public static WedgeSubject Gate { get; } = new(4, -4, 12, false, true);

    /// <summary>An omni share of 0.5 is a cardioid, 0 a figure-8, 1 an omni.</summary>
    public static double Mid(double share, double azimuth) => share + ((1 - share) * Math.Cos(Radians(azimuth)));

    public static IReadOnlyList<PolarCurve> Polar(double share, double sideLevel)
    {
        var gain = Math.Pow(10, sideLevel / 20);
        double Side(double azimuth) => gain * Math.Sin(Radians(azimuth));
        return
        [
            new("mid", "mid", a => Mid(share, a)),
            new("side", "side", Side),
            new("left", "left", a => Mid(share, a) + Side(a)),
            new("right", "right", a => Mid(share, a) - Side(a)),
        ];
    }

    /// <summary>Left − right in dB; ±∞ where one of them is silent, null where both are.</summary>
    public static double? Difference(double share, double sideLevel, double azimuth)
    {
        var side = Math.Pow(10, sideLevel / 20) * Math.Sin(Radians(azimuth));
        var (left, right) = (Math.Abs(Mid(share, azimuth) + side), Math.Abs(Mid(share, azimuth) - side));
        return left + right < 1e-12 ? null : 20 * Math.Log10(left / right);
    }

    /// <summary>Coverage in degrees by side level for a cardioid; null where never reached, as below −9 dB of side here.</summary>
    public static double? Coverage(double sideLevel, double threshold)
    {
        var k = Math.Pow(10, threshold / 20);
        return sideLevel < -9 ? null : 4 / Math.PI * 180 * Math.Atan((k - 1) / (k + 1) / (2 * Math.Pow(10, sideLevel / 20)));
    }

    public static double? Correlation(double sideLevel)
    {
        var side = Math.Pow(10, sideLevel / 10) / 3;
        return ((1 / 3.0) - side) / ((1 / 3.0) + side);
    }

    public static IReadOnlyList<NoiseBar> Noise { get; } =
    [
        new("mid microphone", 12.4, "mid"),
        new("mid input", 3.1, "mid"),
        new("side microphone", null, "side"),
        new("side input", double.NegativeInfinity, "side"),
        new("left and right", 17.9, "total"),
        new("mono", 12.9, "total"),
    ];

    public static IReadOnlyList<GainColumn> Gains { get; } =
    [
        new("Mid", "38 dB", "mid", -92.3, -61, -12, 3.5),
        new("Side", "44.5 dB", "side", -88, -86, -12, null),
    ];

    public static IReadOnlyList<TradeOffPoint> Pairs { get; } =
    [
        new(1, 420, 14.2, true),
        new(2, 180, 19.6, true),
        new(3, 430, 14.3, false),
        new(4, 880, 11, true),
        new(20, 650, 22, false),
    ];

    private static double Radians(double degrees) => degrees * Math.PI / 180;
}
