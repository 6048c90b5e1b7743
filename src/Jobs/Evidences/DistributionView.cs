using System.Globalization;
using Athwart.Figures.Plots;
using Athwart.Quantities;

namespace Athwart.Jobs.Evidences;

/// <summary>How often samples have which value: a wave swings around zero, an offset is where its middle lies.</summary>
internal static class DistributionView
{
    private const int Cells = 121;
    private const int Frames = 4096;
    private const int MostWindows = 400;

    public static string Draw(EvidenceCase found)
    {
        var offset = (found.Finding.Size ?? 0) / 100;
        var (mid, side) = Samples(found);
        var own = found.Finding.Role == ChannelRole.Side ? side : mid;
        var edge = Math.Max(4 * Math.Abs(offset), 4 * Spread(own, offset));
        edge = edge > 0 ? edge : 1e-3;
        var plot = new Plot("How often samples have which value", PlotAxis.Between("part of full scale", -edge, edge, plus: true), PlotAxis.Between("how often, the most often is 1", 0, 1.05))
        {
            Curves = [new("mid", "mid", Histogram(mid, edge)), new("side", "side", Histogram(side, edge))],
            Guides = [new(0, true, "zero"), new(offset, true, string.Create(CultureInfo.InvariantCulture, $"offset {100 * offset:0.00} %"))],
        };
        return PlotFigure.Draw(EvidencePicture.Label(found), plot);
    }

    private static (List<float> Mid, List<float> Side) Samples(EvidenceCase found)
    {
        var (mid, side) = (new List<float>(), new List<float>());
        var (from, to) = found.Place;
        var count = (int)Math.Clamp((to - from) / Frames, 1, MostWindows);
        for (var n = 0; n < count; n++)
        {
            var at = from + (long)((double)n / Math.Max(1, count - 1) * Math.Max(0, to - from - Frames));
            var (m, s) = found.Sound.Read(at, Math.Min(to, at + Frames));
            mid.AddRange(m);
            side.AddRange(s);
        }

        return (mid, side);
    }

    // The middle half: a few loud moments must not hide what the quiet swings around.
    private static double Spread(List<float> samples, double offset)
    {
        var away = samples.Where(float.IsFinite).Select(s => Math.Abs(s - offset)).Order().ToList();
        return away.Count == 0 ? 0 : away[away.Count / 2];
    }

    private static List<(double X, double Y)> Histogram(List<float> samples, double edge)
    {
        var counts = new double[Cells];
        foreach (var sample in samples)
        {
            if (Math.Abs(sample) < edge)
                counts[(int)((sample + edge) / (2 * edge) * Cells)]++;
        }

        var most = Math.Max(1, counts.Max());
        return [.. counts.Select((c, i) => ((((i + 0.5) / Cells * 2) - 1) * edge, c / most))];
    }
}
