using Athwart.Metering.Events;

namespace Athwart.Metering.Tests.Events;

/// <summary>Counts how well events were found over many takes.</summary>
internal sealed class EventAccuracy
{
    private const double ToleranceSeconds = 0.02;
    private readonly List<double> _starts = [], _ends = [];

    public int Events { get; private set; }

    public int Missed { get; private set; }

    public int False { get; private set; }

    public int Close { get; private set; }

    public List<string> Far { get; } = [];

    public double CloseShare => Events == 0 ? 1 : (double)Close / Events;

    public void Add(ulong seed, EventScenes scene)
    {
        var found = Find(scene.Rate, scene.Mid, scene.Side);
        foreach (var truth in scene.Events)
        {
            Events++;
            var hits = found.Where(f => f.Range.From.Value < truth.To && f.Range.To.Value > truth.From).ToList();
            if (hits.Count == 0)
            {
                Missed++;
                Far.Add(FormattableString.Invariant($"seed {seed}: missed {truth.Shape} at {truth.From / (double)scene.Rate:0.000}"));
                continue;
            }

            var (start, end) = ((double)(hits[0].Range.From.Value - truth.From) / scene.Rate, (double)(hits[^1].Range.To.Value - truth.To) / scene.Rate);
            _starts.Add(Math.Abs(start));
            _ends.Add(Math.Abs(end));
            if (hits.Count == 1 && Math.Abs(start) <= ToleranceSeconds && Math.Abs(end) <= ToleranceSeconds)
                Close++;
            else
                Far.Add(FormattableString.Invariant($"seed {seed}: {truth.Shape} {truth.From / (double)scene.Rate:0.000} to {truth.To / (double)scene.Rate:0.000}: start {1000 * start:0} ms, end {1000 * end:0} ms, {hits.Count} found"));
        }

        foreach (var lone in found.Where(f => !scene.Events.Any(t => f.Range.From.Value < t.To && f.Range.To.Value > t.From)))
        {
            False++;
            Far.Add(FormattableString.Invariant($"seed {seed}: false {lone.Range.From.Value / (double)scene.Rate:0.000} to {lone.Range.To.Value / (double)scene.Rate:0.000}, {lone.Height.Value:0.0} dB in the {lone.Role}"));
        }
    }

    /// <summary>What 95 % of the starts are within, seconds.</summary>
    public double StartsWithin => Ninety5(_starts);

    public static IReadOnlyList<FoundEvent> Find(int rate, float[] mid, float[] side, EventSettings? settings = null)
    {
        var finder = new EventFinder(rate);
        finder.Add(mid, side);
        return finder.Complete(settings ?? new()).Events;
    }

    public override string ToString() => FormattableString.Invariant(
        $"{Events} events, {Missed} missed, {False} false, {100 * CloseShare:0.0} % with both edges within 20 ms; starts 95 % within {1000 * StartsWithin:0} ms, ends {1000 * Ninety5(_ends):0} ms");

    private static double Ninety5(List<double> errors) => errors.Count == 0 ? 0 : errors.Order().ElementAt((int)(0.95 * (errors.Count - 1)));
}
