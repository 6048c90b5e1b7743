using System.Globalization;
using Athwart.Figures.Plots;
using Athwart.Quantities;

namespace Athwart.Jobs.Evidences;

/// <summary>Level over frequency, with the frequencies the finding names.</summary>
internal static class SpectrumView
{
    private const double RangeDecibels = 90;
    private const int Points = 600;

    public static string Draw(EvidenceCase found, double lowest, double highest)
    {
        var (from, to) = found.Place;
        // Lines of hum need hertz apart; a whole spectrum does not.
        var wanted = highest < 1000 ? found.Sound.SampleRateHertz / 1.5 : 16384;
        var spectra = PairSpectra.Of(found.Sound, from, to, (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)wanted));
        highest = Math.Min(highest, found.Sound.SampleRateHertz / 2.0);
        var (mid, side) = (Line(spectra.Hertz, spectra.Mid, lowest, highest), Line(spectra.Hertz, spectra.Side, lowest, highest));
        var shown = (found.Sound.HasSide ? mid.Concat(side) : mid).Select(p => p.Y).ToList();
        var top = shown.DefaultIfEmpty(0).Max();
        var plot = new Plot("Level over frequency", PlotAxis.Frequency(lowest, highest), PlotAxis.Around("dB in each line; a full-scale sine is 0", [Math.Max(top - RangeDecibels, shown.DefaultIfEmpty(-90).Min()), top], 10))
        {
            Curves = found.Sound.HasSide ? [new("mid", "mid", mid), new("side", "side", side)] : [new("mid", "mid", mid)],
            Guides = [.. Named(found.Finding, lowest, highest)],
        };
        return PlotFigure.Draw(EvidencePicture.Label(found), plot);
    }

    private static IEnumerable<PlotGuide> Named(Finding finding, double lowest, double highest)
    {
        var named = finding.Evidence.Where(e => string.Equals(e.Unit, "Hz", StringComparison.Ordinal)).Select(e => (e.Value, e.Name)).ToList();
        if (string.Equals(finding.SizeUnit, "Hz", StringComparison.Ordinal) && finding.Size is { } size)
            named.Add((size, finding.Kind));
        return named.Where(n => n.Value >= lowest && n.Value <= highest).DistinctBy(n => Math.Round(n.Value, 1)).Take(6)
            .Select(n => new PlotGuide(n.Value, true, string.Create(CultureInfo.InvariantCulture, $"{n.Name} {n.Value:0.##} Hz")));
    }

    /// <summary>At most so many points, each the strongest of what it stands for, so that no line is lost.</summary>
    private static List<(double X, double Y)> Line(double[] hertz, double[] level, double lowest, double highest)
    {
        var points = new SortedDictionary<int, (double X, double Y)>();
        for (var k = 1; k < hertz.Length; k++)
        {
            if (hertz[k] < lowest || hertz[k] > highest)
                continue;
            var at = (int)(Math.Log(hertz[k] / lowest) / Math.Log(highest / lowest) * Points);
            if (!points.TryGetValue(at, out var held) || level[k] > held.Y)
                points[at] = (hertz[k], level[k]);
        }

        return [.. points.Values];
    }
}
