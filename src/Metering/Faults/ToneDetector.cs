using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>Steady narrow lines: whistles of power supplies and screens, and spurs above hearing.</summary>
internal static class ToneDetector
{
    private const double Ultrasonic = 20_000;

    public static IEnumerable<Finding> Find(TakeMeasures m, FaultMeasures f)
    {
        if (f.Cross is not { Groups: >= 3 } cross)
            yield break;
        foreach (var (role, quiet, mean) in ((ChannelRole, float[], double[])[])[(ChannelRole.Mid, cross.QuietMid, cross.Mid), (ChannelRole.Side, cross.QuietSide, cross.Side)])
        {
            var low = LowLines(role == ChannelRole.Side ? f.Lines.Side : f.Lines.Mid, f.Lines).ToList();
            // An engine has its lines there: they are the sound.
            if (low.Count > 2)
                low.Clear();
            List<(double Hertz, double Power, double Excess)> lines = [.. low, .. Lines(quiet, mean, m.SampleRateHertz / (double)PairCross.Length).Where(l => l.Hertz > 640 || (low.Count == 0 && l.Hertz > 560))];
            foreach (var finding in Tell(role, lines.FindAll(l => l.Hertz < Ultrasonic), false))
                yield return finding;
            foreach (var finding in Tell(role, lines.FindAll(l => l.Hertz >= Ultrasonic && l.Excess > 16), true))
                yield return finding;
        }
    }

    /// <summary>Bins that stand 10 dB above both sides in the quietest group, and stay within 3 dB of that all through.</summary>
    internal static IEnumerable<(double Hertz, double Power, double Excess)> Lines(float[] quiet, double[] mean, double width)
    {
        for (var k = 24; k < quiet.Length - 24; k++)
        {
            if (!(quiet[k] > 1e-12) || quiet[k] < quiet[k - 1] || quiet[k] < quiet[k + 1])
                continue;
            // Louder at times: only as far as all around is.
            if (mean[k] > 1.5 * quiet[k] && mean[k] - (1.5 * quiet[k]) > Math.Max(Mean(mean, k - 12), Mean(mean, k + 5)))
                continue;

            var beside = Math.Max(Median(quiet.AsSpan(k - 20, 16)), Median(quiet.AsSpan(k + 5, 16)));
            if (!(quiet[k] > 10 * beside) || !(quiet[k] > 5 * Math.Max(quiet[k - 4], quiet[k + 4])))
                continue;
            var (a, b, c) = (Math.Log(quiet[k - 1] + 1e-30), Math.Log(quiet[k]), Math.Log(quiet[k + 1] + 1e-30));
            var offset = Math.Abs(a - (2 * b) + c) < 1e-9 ? 0 : Math.Clamp((a - c) / (2 * (a - (2 * b) + c)), -0.5, 0.5);
            yield return ((k + offset) * width, mean[k] / HumDetector.Response(offset), quiet[k] / beside);
        }
    }

    private static double Mean(double[] x, int from)
    {
        var sum = 0.0;
        for (var i = from; i < from + 8; i++)
            sum += x[i];
        return sum / 8;
    }

    /// <summary>Lines from 30 to 640 Hz that turn steadily from frame to frame and are no hum.</summary>
    private static IEnumerable<(double Hertz, double Power, double Excess)> LowLines(LineSums sums, LineSpectrum spectrum)
    {
        if (sums.Count < 4)
            yield break;
        var (width, hum) = (spectrum.Rate / LineSpectrum.Length, HumDetector.Told(sums, spectrum));
        for (var k = (int)(30 / width); k < spectrum.Bins - 3; k++)
        {
            if (sums.Steady(k) < sums.Steady(k - 1) || sums.Steady(k) < sums.Steady(k + 1) || sums.Steadiness(k) < 0.7 || !sums.IsAlways(k))
                continue;
            var (beside, at) = (sums.Beside(k), sums.Frequency(k));
            if (sums.Steady(k) > 14 * beside && sums.Power(k) > 1e-12 && Math.Abs(at - k) < 0.8 && !hum.Any(h => Math.Abs(h - (at * width)) < 2))
                yield return (at * width, sums.Steady(k) / HumDetector.Response(at - k), sums.Steady(k) / (beside + 1e-20));
        }
    }

    private static float Median(ReadOnlySpan<float> x)
    {
        Span<float> sorted = stackalloc float[x.Length];
        x.CopyTo(sorted);
        sorted.Sort();
        return sorted[x.Length / 2];
    }

    private static IEnumerable<Finding> Tell(ChannelRole role, List<(double Hertz, double Power, double Excess)> lines, bool ultrasonic)
    {
        // A machine or an instrument has dozens: then they are the sound.
        var sound = !ultrasonic && lines.Count > 6;
        foreach (var line in lines.OrderByDescending(l => l.Power).Take(sound ? 1 : TakeDetectors.MostOfAKind).OrderBy(l => l.Hertz))
            yield return Line(role, line, ultrasonic, sound ? Text($" There are {lines.Count} such lines: they may be the sound itself.") : "");
    }

    private static Finding Line(ChannelRole role, (double Hertz, double Power, double Excess) line, bool ultrasonic, string more)
    {
        var level = DecibelsFullScale.FromMeanSquare(line.Power / 2);
        return new()
        {
            Kind = ultrasonic ? FaultKinds.UltrasonicTone : FaultKinds.Tone,
            Severity = ultrasonic && level.Value > -85 ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = role,
            Size = line.Hertz,
            SizeUnit = "Hz",
            Confidence = more.Length > 0 ? 0.4 : 0.8,
            Message = ultrasonic
                ? Text($"The {Name(role)} holds a steady line at {line.Hertz / 1000:0.00} kHz, {level}: unheard as it is, but at half the speed it lies at {line.Hertz / 2000:0.00} kHz. {(role == ChannelRole.Mid ? "Mono has it too." : "Mono does not have it.")}")
                : Text($"The {Name(role)} holds a steady line at {line.Hertz:0} Hz, {level}, {10 * Math.Log10(line.Excess):0} dB above what is beside it: {(role == ChannelRole.Mid ? "in the middle, and in mono" : "wide, and gone in mono")}.{more}"),
            Remedy = ultrasonic ? "A low-pass at 20 kHz before slowing it down; look for a power supply, a detector or a lamp nearby." : "A narrow cut at that frequency; look for a power supply, a fan or a screen nearby.",
            Evidence = [new("level", level.Value, "dBFS"), new("above its neighbours", 10 * Math.Log10(line.Excess), "dB")],
        };
    }
}
