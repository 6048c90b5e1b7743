namespace Athwart.Metering.Tests.Support;

/// <summary>
/// Tech 3341 signals 20 to 23: at four times the rate an fs/6 tone of 0.5 with one period of an fs/4 tone of 1.0 inside, running on in
/// phase, low-passed, and one sample of four kept from an offset.
/// </summary>
internal static class HiddenPeak
{
    internal const int Rate = 48_000, Over = 4, HalfTaps = 512;

    public static float[] At(int offset)
    {
        var high = Oversampled();
        var filter = LowPass();
        var samples = new float[high.Length / Over];
        for (var i = 0; i < samples.Length; i++)
        {
            var sum = 0.0;
            for (var k = -HalfTaps; k <= HalfTaps; k++)
            {
                var at = (i * Over) + offset + k;
                if (at >= 0 && at < high.Length)
                    sum += filter[k + HalfTaps] * high[at];
            }

            samples[i] = (float)sum;
        }

        return samples;
    }

    private static double[] Oversampled()
    {
        // fs/6 is 24 samples a period at 4·fs and fs/4 is 16; the one loud period starts and ends at a zero crossing.
        var (before, after, fade) = (24 * 400, 24 * 400, 24 * 20);
        var signal = new double[before + 16 + after];
        for (var i = 0; i < signal.Length; i++)
        {
            var tone = i < before ? 0.5 * Math.Sin(2 * Math.PI * i / 24)
                : i < before + 16 ? Math.Sin(2 * Math.PI * (i - before) / 16)
                : 0.5 * Math.Sin(2 * Math.PI * (i - before - 16) / 24);
            signal[i] = tone * Math.Min(1, Math.Min(i, signal.Length - 1 - i) / (double)fade);
        }

        return signal;
    }

    /// <summary>Flat to 20 kHz, stops at 24 kHz: a Kaiser-windowed sinc; the window from its power series.</summary>
    private static double[] LowPass()
    {
        var taps = new double[(2 * HalfTaps) + 1];
        const double Cutoff = 22_000.0 / (Rate * Over);
        for (var k = -HalfTaps; k <= HalfTaps; k++)
        {
            var sinc = k == 0 ? 2 * Cutoff : Math.Sin(2 * Math.PI * Cutoff * k) / (Math.PI * k);
            var x = (double)k / HalfTaps;
            taps[k + HalfTaps] = sinc * Bessel(10 * Math.Sqrt(1 - (x * x))) / Bessel(10);
        }

        return taps;
    }

    private static double Bessel(double x)
    {
        var (sum, term) = (1.0, 1.0);
        for (var n = 1; n < 60; n++)
        {
            term *= x / 2 / n * (x / 2 / n);
            sum += term;
        }

        return sum;
    }
}
