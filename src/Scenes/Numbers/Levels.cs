namespace Athwart.Scenes.Numbers;

/// <summary>Levels and the numbers they stand for.</summary>
internal static class Levels
{
    /// <summary>Reference pressure, 20 µPa.</summary>
    public const double ReferencePascal = 2e-5;

    /// <summary>10^(dB/20).</summary>
    public static double Ratio(double decibels) => Math.Pow(10, decibels / 20);

    /// <summary>Pascal at a sound pressure level.</summary>
    public static double Pascal(double decibels) => ReferencePascal * Ratio(decibels);

    /// <summary>20·lg of a ratio; −∞ for 0.</summary>
    public static double Decibels(double ratio) => 20 * Math.Log10(Math.Abs(ratio));

    /// <summary>The root mean square of samples; 0 for none.</summary>
    public static double Rms(ReadOnlySpan<double> samples)
    {
        double sum = 0;
        foreach (var sample in samples)
            sum += sample * sample;
        return samples.IsEmpty ? 0 : Math.Sqrt(sum / samples.Length);
    }

    /// <summary>The largest magnitude; 0 for none.</summary>
    public static double Peak(ReadOnlySpan<double> samples)
    {
        double peak = 0;
        foreach (var sample in samples)
            peak = Math.Max(peak, Math.Abs(sample));
        return peak;
    }

    /// <summary>Scales in place.</summary>
    public static void Scale(Span<double> samples, double factor)
    {
        foreach (ref var sample in samples)
            sample *= factor;
    }

    /// <summary>Power of A-weighted white noise against that of the same noise from 0 Hz to half the rate, unweighted.</summary>
    /// <remarks>Source: IEC 61672-1:2013 Annex E, the analytic A-weighting; see docs/sources.md.</remarks>
    public static double AWeightedWhitePower(double rate)
    {
        const double Step = 5;
        const double HighestHertz = 22400; // where the band of a sound level meter ends
        double sum = 0;
        for (var hertz = Step / 2; hertz < Math.Min(rate / 2, HighestHertz); hertz += Step)
            sum += AWeightPower(hertz) * Step;
        return sum / (rate / 2);
    }

    private static double AWeightPower(double hertz)
    {
        var f2 = hertz * hertz;
        var ra = 12194.217 * 12194.217 * f2 * f2
            / ((f2 + (20.598997 * 20.598997)) * Math.Sqrt((f2 + (107.65265 * 107.65265)) * (f2 + (737.86223 * 737.86223))) * (f2 + (12194.217 * 12194.217)));
        return ra * ra * Math.Pow(10, 0.2);
    }
}
