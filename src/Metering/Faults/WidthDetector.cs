using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>What mono loses for each third octave, and where the side's low end is missing.</summary>
internal static class WidthDetector
{
    // Low cuts of inputs and microphones end at 400 Hz; a side that ends higher was mixed so, or hears nothing below.
    private const double HighestCut = 450;

    public static IEnumerable<Finding> Find(TakeMeasures m, FaultMeasures f)
    {
        if (MonoLoss(m, f) is { } loss)
            yield return loss;
        if (LowEnd(m, f) is { } low)
            yield return low;
    }

    /// <summary>Nominal third octaves in hertz: 1000·2^(n/3).</summary>
    internal static double Centre(int third) => 1000 * Math.Pow(2, third / 3.0);

    private static Finding? MonoLoss(TakeMeasures m, FaultMeasures f)
    {
        if (f.Cross is not { Groups: > 0 } cross)
            return null;
        var g = m.SideGain * m.SideGain;
        var width = m.SampleRateHertz / (double)PairCross.Length;
        var bands = Enumerable.Range(-9, 22)
            .Select(n => (Hertz: Centre(n), Mid: Sum(cross.Mid, Centre(n), width), Side: g * Sum(cross.Side, Centre(n), width)))
            .Where(b => b.Hertz * 1.13 < m.SampleRateHertz / 2.0).ToList();
        var total = bands.Sum(b => b.Mid + b.Side);
        // A band that holds less than a hundredth of the sound is not missed.
        var worst = bands.Where(b => b.Mid + b.Side > 0.01 * total && b.Mid > 0).OrderByDescending(b => b.Side / b.Mid).FirstOrDefault();
        var loss = worst.Mid > 0 ? 10 * Math.Log10(1 + (worst.Side / worst.Mid)) : 0;
        if (!(loss > 6))
            return null;
        var safe = (20 * Math.Log10(m.SideGain)) + (10 * Math.Log10(worst.Mid / worst.Side));
        return new()
        {
            Kind = FaultKinds.MonoLoss,
            Severity = FindingSeverity.Note,
            Size = loss,
            SizeUnit = "dB",
            Confidence = 0.9,
            Message = Text($"Folded to mono at this side level, the third octave at {worst.Hertz:0} Hz loses {loss:0.0} dB: there the sound is mostly side."),
            Remedy = Text($"A side level up to {new Decibels(safe)} keeps every third octave that matters within 3 dB in mono."),
            Evidence = [new("third octave", worst.Hertz, "Hz"), new("side level for 3 dB", safe, "dB"), .. bands.Where(b => b.Mid + b.Side > 0.01 * total && b.Mid > 0).Select(b => new Evidence(Text($"loss at {b.Hertz:0} Hz"), 10 * Math.Log10(1 + (b.Side / b.Mid)), "dB"))],
        };
    }

    private static double Sum(double[] power, double centre, double width)
    {
        var sum = 0.0;
        for (var k = Math.Max(1, (int)Math.Round(centre / 1.1225 / width)); k < Math.Min(power.Length, (int)Math.Round(centre * 1.1225 / width)); k++)
            sum += power[k];
        return sum;
    }

    private static Finding? LowEnd(TakeMeasures m, FaultMeasures f)
    {
        var lines = f.Lines;
        if (lines.Mid.Count < 2 || m.SideMinusMid.Value < -60)
            return null;
        var width = lines.Rate / LineSpectrum.Length;
        // 25 to 500 Hz; hum is not what is asked about.
        var hum = HumDetector.Frequencies(lines.Mid, lines).Concat(HumDetector.Frequencies(lines.Side, lines)).ToList();
        var thirds = Enumerable.Range(-16, 14).Select(n => (Hertz: Centre(n), Mid: Level(lines.Mid, Centre(n), width, hum), Side: Level(lines.Side, Centre(n), width, hum))).Where(t => t.Mid > 0 && t.Side > 0).ToList();
        if (thirds.Count < 14 || f.Cross is not { Groups: > 0 } cross)
            return null;
        var fine = m.SampleRateHertz / (double)PairCross.Length;
        thirds.AddRange(Enumerable.Range(-2, 9).Select(n => (Hertz: Centre(n), Mid: Sum(cross.Mid, Centre(n), fine), Side: Sum(cross.Side, Centre(n), fine))).Where(t => t.Mid > 0 && t.Side > 0 && t.Hertz * 1.2 < m.SampleRateHertz / 2.0));
        var ratio = thirds.ConvertAll(t => 10 * Math.Log10(t.Side / t.Mid));
        return Corner(thirds.ConvertAll(t => t.Hertz), ratio) is { } corner && Holds(thirds, corner.Hertz) ? LowEnd(corner, thirds) : null;
    }

    private static double Level(LineSums sums, double centre, double width, List<double> hum)
    {
        var sum = 0.0;
        for (var k = (int)Math.Round(centre / 1.1225 / width); k < (int)Math.Round(centre * 1.1225 / width); k++)
        {
            if (!hum.Exists(h => Math.Abs((k * width) - h) < 3 * width))
                sum += sums.PlainPower(k);
        }

        return sum;
    }

    /// <summary>
    /// Where the side falls 3 dB below its share above, if from there down it goes on falling 5 dB an octave and more for an octave and a
    /// half; hertz, and how far it falls in all.
    /// </summary>
    internal static (double Hertz, double Fall, double Slope, double Uneven)? Corner(List<double> hertz, List<double> ratio)
    {
        // From 500 Hz down; the share above is read from two thirds to two octaves higher, past the bend.
        for (var i = Math.Min(13, ratio.Count - 6); i >= 4; i--)
        {
            var above = ratio.GetRange(i + 2, Math.Min(6, ratio.Count - i - 2)).Order().ToList();
            var plateau = above[above.Count / 2];
            if (ratio[i] > plateau - 3 || above[^1] - above[0] > 12)
                continue;
            var at = Math.Clamp((plateau - 3 - ratio[i]) / Math.Max(0.1, ratio[i + 1] - ratio[i]), 0, 1);
            var slope = (ratio[i] - ratio[i - 4]) / (4 / 3.0);
            var falls = Enumerable.Range(i - 4, 4).All(j => ratio[j] < ratio[j + 1] + 2.5);
            if (slope < 5 || !falls)
                continue;
            return (hertz[i] * Math.Pow(2, at / 3), plateau - ratio.Take(i).Min(), slope, above[^1] - above[0]);
        }

        return null;
    }

    /// <summary>Whether the mid has sound below the corner: its thirds there are not 40 dB below its strongest.</summary>
    private static bool Holds(List<(double Hertz, double Mid, double Side)> thirds, double corner)
    {
        var below = thirds.Where(t => t.Hertz < corner).ToList();
        return below.Count > 0 && below.Average(t => t.Mid) > 1e-4 * thirds.Max(t => t.Mid) && below.Average(t => t.Mid) > 1e-11;
    }

    private static Finding? LowEnd((double Hertz, double Fall, double Slope, double Uneven) c, List<(double Hertz, double Mid, double Side)> thirds)
    {
        // A figure-8's own low end may end at 60 Hz.
        if (c.Hertz < 70 || c.Fall < 9)
            return null;
        return new()
        {
            Kind = FaultKinds.SideLowEnd,
            Severity = c.Hertz is > 150 and < HighestCut && c.Fall > 15 && c.Uneven < 8 ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = ChannelRole.Side,
            Size = c.Hertz,
            SizeUnit = "Hz",
            Confidence = Math.Clamp(0.5 + (c.Fall / 60), 0.5, 0.85),
            Message = Text($"The side has no low end: below {c.Hertz:0} Hz it falls {c.Slope:0} dB an octave against the mid, {c.Fall:0} dB in all. Decoded, everything below is narrow; mono is not concerned."),
            Remedy = "If a low cut was on at the side's input, a matching boost brings some back, with its noise; otherwise leave the low end in the middle.",
            Evidence = [new("corner", c.Hertz, "Hz"), new("fall", c.Fall, "dB"), .. thirds.Select(t => new Evidence(Text($"side to mid at {t.Hertz:0} Hz"), 10 * Math.Log10(t.Side / t.Mid), "dB"))],
        };
    }
}
