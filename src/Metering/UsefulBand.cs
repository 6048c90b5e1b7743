using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Reads the highest useful frequency from a held spectrum.</summary>
/// <remarks>
/// Two things end a band. Numerically: what lies below the dither of the word length, or 120 dB below the strongest bin, or below
/// −170 dBFS, is not counted. By an edge: when everything above a frequency lies 20 dB or more below the broad band just under it, and
/// the fall is over within 6 %, a filter was there (a rate conversion, a lossy code, a radio link), and what is above is only noise
/// that came later. Resolution 1/256 of half the sample rate. Common practice, no published source.
/// </remarks>
internal static class UsefulBand
{
    internal const int BinsPerBand = 8, Bands = (PairSpectrum.Bins - 1) / BinsPerBand;
    internal const double EdgeDecibels = 20;

    /// <summary>The upper end of the band and how far the spectrum falls there; 0 Hz for silence, 0 dB without an edge.</summary>
    /// <param name="held">Largest power for each bin.</param>
    /// <param name="strongest">Largest power of any bin of either channel: float transforms are good to 140 dB below it.</param>
    /// <param name="transformed">Blocks transformed: the more, the higher noise reaches.</param>
    /// <param name="sampleRateHertz">The sample rate.</param>
    /// <param name="scale">The stored word.</param>
    public static (Hertz Highest, Decibels Drop) Find(ReadOnlySpan<float> held, double strongest, int transformed, int sampleRateHertz, SampleScale scale)
    {
        var levels = Levels(held);
        var floor = Floor(strongest, transformed, scale);
        var top = Bands - 1;
        while (top >= 0 && levels[top] <= floor)
            top--;
        if (top < 0)
            return (default, default);
        for (var b = 0; b < Bands; b++)
            levels[b] = Math.Max(levels[b], floor);
        var (edge, drop) = Edge(levels);
        return edge >= 0 && edge <= top ? (At(edge, sampleRateHertz), new(drop)) : (At(top, sampleRateHertz), default);
    }

    private static Hertz At(int band, int sampleRateHertz) => new((band + 1) * BinsPerBand * (double)sampleRateHertz / PairSpectrum.Length);

    private static double[] Levels(ReadOnlySpan<float> held)
    {
        var levels = new double[Bands];
        for (var b = 0; b < Bands; b++)
        {
            var sum = 0.0;
            // Bin 0 is DC and is left at nothing; the last bin is half the sample rate.
            foreach (var power in held.Slice(b * BinsPerBand, BinsPerBand))
                sum += power;
            levels[b] = 10 * Math.Log10((sum / BinsPerBand) + 1e-30);
        }

        return levels;
    }

    private static double Floor(double strongest, int transformed, SampleScale scale)
    {
        // TPDF dither has variance step²/4; a Hann window scaled to sine amplitude gives 6·σ²/N for each bin, and the largest of n
        // exponentially distributed powers lies ln n + 0.58 times higher; 3 dB above that something else is there.
        var dither = scale.IsInteger ? 6 * scale.Step * scale.Step / 4 / PairSpectrum.Length * (Math.Log(Math.Max(1, transformed)) + 0.58) * 2 : 0;
        return 10 * Math.Log10(Math.Max(dither, Math.Max(strongest * 1e-12, 1e-17)));
    }

    /// <summary>The highest band under which the spectrum is broad and above which it stays low; −1 when there is none.</summary>
    private static (int Band, double Drop) Edge(double[] levels)
    {
        var above = double.NegativeInfinity;
        var (upper, band) = (Bands, -1);
        for (var b = Bands - 4; b >= 8; b--)
        {
            var end = b + Math.Max(3, (int)(b * 0.06));
            while (upper > end && upper > 0)
                above = Math.Max(above, levels[--upper]);
            if (upper < Bands && Math.Min(Below(levels, b), Near(levels, b)) - above >= EdgeDecibels && IsOver(levels, end))
            {
                band = b;
                break;
            }
        }

        if (band < 0)
            return (-1, 0);
        // The search comes down the window's own skirt first; from there the edge is where the spectrum stops rising.
        while (band > 8 && levels[band] < Below(levels, band) - (EdgeDecibels / 2))
            band--;
        return (band, Below(levels, band) - above);
    }

    /// <summary>The median of the tenth that ends two bands below: sound that fades by itself has sunk there already.</summary>
    private static double Near(double[] levels, int band)
    {
        var sorted = levels[Math.Max(0, band - 2 - Math.Max(4, band / 10))..(band - 1)];
        Array.Sort(sorted);
        return sorted[sorted.Length / 2];
    }

    /// <summary>Whether nothing falls any more above an edge: what a filter cut off lies on a floor, sound that fades goes on fading.</summary>
    private static bool IsOver(double[] levels, int end)
    {
        var next = Math.Max(3, end / 16);
        if (end + (2 * next) >= Bands)
            return true;
        double Median(int from, int to)
        {
            var sorted = levels[from..to];
            Array.Sort(sorted);
            return sorted[sorted.Length / 2];
        }

        return Median(end, end + next) - Median(end + next, Bands) < 6;
    }

    /// <summary>The median level of the quarter that ends in a band.</summary>
    private static double Below(double[] levels, int band)
    {
        var sorted = levels[(band - (band / 4))..(band + 1)];
        Array.Sort(sorted);
        return sorted[sorted.Length / 2];
    }
}
