using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>Lines of the mains: 50 or 60 Hz ±1 % (EN 50160) and multiples, steady from frame to frame.</summary>
internal static class HumDetector
{
    internal const double Steady = 0.7, Excess = 6;

    private readonly record struct Line(int Multiple, double Hertz, double Power, double Beside)
    {
        public double Base => Hertz / Multiple;
    }

    public static IEnumerable<Finding> Find(TakeMeasures m, FaultMeasures f)
    {
        foreach (var (role, sums) in ((ChannelRole, LineSums)[])[(ChannelRole.Mid, f.Lines.Mid), (ChannelRole.Side, f.Lines.Side)])
        {
            // Below four frames, 2.5 s, noise turns steadily by chance.
            if (sums.Count < 3)
                continue;
            var family = ((double[])[50, 60]).Select(b => Family(b, sums, f.Lines)).OrderByDescending(l => l.Count).ThenByDescending(l => l.Sum(x => x.Power)).First();
            if (IsHum(family) && !IsMachine(family, sums, f.Lines))
                yield return Hum(role, family, m);
        }
    }

    /// <summary>The frequencies, in hertz, that are taken for hum in a role.</summary>
    public static IReadOnlyList<double> Frequencies(LineSums sums, LineSpectrum lines) => sums.Count < 3
        ? []
        : [.. ((double[])[50, 60]).SelectMany(b => Family(b, sums, lines)).Select(l => l.Hertz)];

    /// <summary>The frequencies of both families that qualify as hum in a role; the finding tells the stronger one.</summary>
    public static IReadOnlyList<double> Told(LineSums sums, LineSpectrum lines) => sums.Count < 3
        ? []
        : [.. ((double[])[50, 60]).Select(b => Family(b, sums, lines)).Where(l => IsHum(l) && !IsMachine(l, sums, lines)).SelectMany(l => l).Select(l => l.Hertz)];

    private static bool IsHum(List<Line> family) =>
        family.Count >= 2 || (family.Count == 1 && family[0].Multiple <= 2 && Math.Abs(family[0].Base - Math.Round(family[0].Base / 10) * 10) < 0.25 && family[0].Power > 30 * family[0].Beside);

    /// <summary>
    /// Whether the lines are those of an engine: others as strong lie between 20 and 320 Hz where the mains have none. An engine fires at
    /// every multiple of half its speed; the mains know their own multiples only.
    /// </summary>
    private static bool IsMachine(List<Line> family, LineSums sums, LineSpectrum spectrum)
    {
        var width = spectrum.Rate / LineSpectrum.Length;
        var (mains, strongest, others) = (family[0].Base, family.Max(l => l.Power), 0);
        for (var k = (int)(20 / width); k < Math.Min(spectrum.Bins - 3, (int)(320 / width)); k++)
        {
            if (sums.Steady(k) < sums.Steady(k - 1) || sums.Steady(k) < sums.Steady(k + 1) || sums.Steady(k) < 0.04 * strongest || sums.Steadiness(k) < 0.6 || sums.Steady(k) < Excess * sums.Beside(k))
                continue;
            var part = k * width / mains;
            others += Math.Abs(part - Math.Round(part)) * mains > 2.5 ? 1 : 0;
        }

        return others >= 2 && others >= family.Count;
    }

    private static List<Line> Family(double hertz, LineSums sums, LineSpectrum spectrum)
    {
        var found = new List<Line>();
        for (var n = 1; n * hertz * 1.011 < (spectrum.Bins - 3) * spectrum.Rate / LineSpectrum.Length && n <= 12; n++)
        {
            if (LineAt(n, hertz, sums, spectrum) is { } line)
                found.Add(line);
        }

        if (found.Count == 0)
            return found;
        // All members are multiples of one frequency.
        var strongest = found.MaxBy(l => l.Power / l.Beside);
        return found.FindAll(l => Math.Abs(l.Base - strongest.Base) < 0.04);
    }

    private static Line? LineAt(int n, double hertz, LineSums sums, LineSpectrum spectrum)
    {
        var width = spectrum.Rate / LineSpectrum.Length;
        var (from, to) = ((int)(n * hertz * 0.99 / width), (int)Math.Ceiling(n * hertz * 1.01 / width));
        var best = Enumerable.Range(from, to - from + 1).MaxBy(sums.Steady);
        var at = sums.Frequency(best);
        var beside = sums.Beside(best);
        // The mains are on all the time; a machine starts and stops.
        if (!sums.IsAlways(best) || sums.Steadiness(best) < Steady || sums.Steady(best) < Excess * beside || Math.Abs(at - best) > 0.8 || Math.Abs((at * width / n) - hertz) > hertz * 0.01)
            return null;
        return new(n, at * width, sums.Steady(best) / Response(at - best), beside);
    }

    /// <summary>Power response of a Hann window so many bins from a line.</summary>
    public static double Response(double offset)
    {
        if (Math.Abs(offset) < 1e-6)
            return 1;
        var amplitude = Math.Sin(Math.PI * offset) / (Math.PI * offset) / (1 - (offset * offset));
        return amplitude * amplitude;
    }

    private static Finding Hum(ChannelRole role, List<Line> family, TakeMeasures m)
    {
        var frequency = family.Sum(l => l.Multiple * l.Hertz * l.Power / l.Beside) / family.Sum(l => l.Multiple * l.Multiple * l.Power / l.Beside);
        var level = DecibelsFullScale.FromMeanSquare(family.Sum(l => l.Power) / 2);
        // A cut two bins wide leaves what the noise beside holds there: 1.5 bins is what a Hann window reads as one.
        var left = DecibelsFullScale.FromMeanSquare(family.Sum(l => l.Beside * 2 / 1.5) / 2);
        var floor = (role == ChannelRole.Mid ? m.Mid : m.Side).NoiseFloor;
        var worst = family.MaxBy(l => l.Power);
        var harmonics = string.Join(", ", family.Select(l => Text($"{l.Hertz:0.0}")));
        return new()
        {
            Kind = FaultKinds.Hum,
            Severity = level.Value > floor.Value - 12 && level.Value > -75 ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = role,
            Size = level.Value,
            SizeUnit = "dBFS",
            Confidence = family.Count >= 3 ? 0.95 : family.Count == 2 ? 0.85 : 0.7,
            Message = Text($"The {Name(role)} hums at {frequency:0.00} Hz and its multiples ({harmonics} Hz): {level} rms in all, the strongest at {worst.Hertz:0.0} Hz. {(role == ChannelRole.Mid ? "It sits in the middle, and stays in mono." : "It is wide and without direction, and is gone in mono.")}"),
            Remedy = Text($"Narrow cuts at these frequencies leave {left} of what lies beside them; keep mains cables and lamps away next time."),
            Evidence = [new("frequency", frequency, "Hz"), new("multiples", family.Count, ""), new("left by cuts of 2 Hz", left.Value, "dBFS"), .. family.Select(l => new Evidence(Text($"{l.Hertz:0.0} Hz"), 10 * Math.Log10(l.Power / 2), "dBFS"))],
        };
    }
}
