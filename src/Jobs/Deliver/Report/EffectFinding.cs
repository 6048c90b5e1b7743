using Athwart.Figures;
using Athwart.Quantities;

namespace Athwart.Jobs.Deliver.Report;

/// <summary>A finding with its number in the report and its place in the effect, in seconds from the start.</summary>
internal sealed record EffectFinding(int Number, Finding Finding, double? FromSeconds, double? ToSeconds)
{
    public TimeMark? Mark => FromSeconds is { } from && ToSeconds is { } to ? new(Number, Finding.Severity, from, to, Finding.Role) : null;

    /// <summary>The findings that touch the cut: the worst first, then by place; ranges end where the cut does.</summary>
    public static IReadOnlyList<EffectFinding> Of(ReportEffect effect)
    {
        var rate = effect.Source?.SampleRateHertz ?? effect.SampleRateHertz;
        var cut = effect.Source?.Cut ?? FrameRange.FromFrames(0, effect.Length.Value);
        return effect.Findings
            .Where(f => f.Range is not { } range || Touches(range, cut))
            .OrderByDescending(f => f.Severity)
            .ThenBy(f => f.Range?.From.Value ?? -1)
            .Select((finding, i) => new EffectFinding(i + 1, finding, Seconds(finding.Range, r => r.From), Seconds(finding.Range, r => r.To)))
            .ToList();

        // What fills the whole cut has no place in it.
        double? Seconds(FrameRange? range, Func<FrameRange, FrameIndex> end)
            => range is not { } place || (place.From <= cut.From && place.To >= cut.To)
                ? null
                : (double)(Math.Clamp(end(place).Value, cut.From.Value, cut.To.Value) - cut.From.Value) / rate;
    }

    private static bool Touches(FrameRange range, FrameRange cut)
        => range.From < cut.To && (range.To > cut.From || (range.Length.Value == 0 && range.From == cut.From));
}
