using System.Globalization;
using Athwart.Quantities;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>Steps against what disturbs, made from the numbers of the findings.</summary>
internal static class DisturbanceSteps
{
    private const double GuardMilliseconds = 0.5;

    /// <summary>Wind: where it is placed in the side, the low end of the side gives way to what the mid supports; else the low end is cut.</summary>
    public static object Wind(PairRoles roles, IReadOnlyList<Finding> findings)
    {
        List<FrameRange> ranges = [.. findings.Select(f => f.Range).OfType<FrameRange>().Where(r => r.Length.Value > 0)];
        return roles == PairRoles.Side && ranges.Count > 0 ? new WindReduction(ranges, 200, 100) : new LowCut(roles, 120, 18);
    }

    /// <summary>Hum: narrow cuts at its frequency and at those multiples that were heard.</summary>
    public static object? Hum(PairRoles roles, IReadOnlyList<Finding> findings)
    {
        if (findings[0].Evidence.FirstOrDefault(e => e.Name is "frequency") is not { Value: > 10 } frequency)
            return null;
        List<int> multiples =
        [
            .. findings[0].Evidence
                .Where(e => e.Name.EndsWith(" Hz", StringComparison.Ordinal))
                .Select(e => double.TryParse(e.Name[..^3], NumberStyles.Float, CultureInfo.InvariantCulture, out var hertz) ? (int)Math.Round(hertz / frequency.Value) : 0)
                .Where(k => k is >= 1 and <= HumCut.HighestHarmonic)
                .Distinct()
                .Order(),
        ];
        return new HumCut(roles, [new(0, Math.Round(frequency.Value, 3))], multiples.Count > 0 ? multiples : [1], 2, 40);
    }

    /// <summary>A steady line: as narrow and as deep a bell as there is, at its frequency; null where a filter cannot reach.</summary>
    public static Bell? Tone(PairRoles roles, Finding finding, int sampleRateHertz) =>
        finding.Size is { } hertz && hertz >= FilterLimits.LowestHertz && hertz <= Math.Min(FilterLimits.HighestHertz, 0.45 * sampleRateHertz)
            ? new(roles, Math.Round(hertz, 1), -FilterLimits.LargestGainDecibels, FilterLimits.HighestQ)
            : null;

    /// <summary>Clicks and short gaps, as far as they are placed and short enough to be filled.</summary>
    public static object? Repair(PairRoles roles, IReadOnlyList<Finding> findings, int sampleRateHertz)
    {
        var guard = (long)Math.Ceiling(GuardMilliseconds * sampleRateHertz / 1000);
        var longest = (long)(Signals.Shaping.Repair.LongestMilliseconds * sampleRateHertz / 1000);
        List<FrameRange> ranges =
        [
            .. findings.Select(f => f.Range).OfType<FrameRange>()
                .Select(r => FrameRange.FromFrames(Math.Max(0, r.From.Value - guard), r.To.Value + guard))
                .Where(r => r.Length.Value > 0 && r.Length.Value <= longest)
                .OrderBy(r => r.From.Value),
        ];
        return ranges.Count == 0 ? null : new Repair(roles, ranges);
    }
}
