using Athwart.Figures.Plots;
using Athwart.Quantities;
using static System.FormattableString;

namespace Athwart.Jobs.Evidences;

/// <summary>A moment, sample by sample.</summary>
internal static class SampleView
{
    private const int MostFrames = 900;
    private const int Around = 90;
    private const int DotsUpTo = 320;

    public static string Draw(EvidenceCase found, bool decoded)
    {
        var (from, to) = Focus(found, decoded);
        var (mid, side) = found.Sound.Read(from, to);
        List<(string Name, string Class, double[] Samples)> lanes = decoded
            ? [("left", "left", Decode(mid, side, found.SideGain)), ("right", "right", Decode(mid, side, -found.SideGain))]
            : [("mid", "mid", Array.ConvertAll(mid, s => (double)s)), ("side", "side", Array.ConvertAll(side, s => (double)s))];
        if (!decoded && !found.Sound.HasSide)
            lanes.RemoveAt(1);
        double Milliseconds(long frame) => (frame - from) * 1000.0 / found.Sound.SampleRateHertz;
        var values = lanes.SelectMany(l => l.Samples).Where(double.IsFinite).ToList();
        var edge = values.Count == 0 ? 1 : values.Max(Math.Abs);
        var start = Invariant($"milliseconds from {found.Seconds(from):0.0000} s, frame {from}");
        var plot = new Plot(
            decoded ? "Decoded left and right, sample by sample" : "Sample by sample",
            PlotAxis.Between(start, 0, Milliseconds(to)),
            PlotAxis.Around("part of full scale", [-edge, edge], 1e-7, plus: true))
        {
            Curves = [.. lanes.Select(l => new PlotCurve(to - from <= DotsUpTo && !decoded ? "" : l.Name, l.Class, [.. l.Samples.Select((s, i) => (Milliseconds(from + i), s))]))],
            Dots = to - from <= DotsUpTo && !decoded ? [.. lanes.Select(l => new PlotDots(l.Name, l.Class, [.. l.Samples.Select((s, i) => new PlotDot(Milliseconds(from + i), s))]))] : [],
            Bands = [Band(found, from, to, Milliseconds)],
            Guides = edge > 0.85 ? [new(1, false, "full scale"), new(-1, false, "")] : [],
        };
        return PlotFigure.Draw(EvidencePicture.Label(found), plot);
    }

    private static PlotBand Band(EvidenceCase found, long from, long to, Func<long, double> milliseconds)
    {
        var place = found.Place;
        var label = found.Finding.Kind + (place.To > to ? ", goes on" : "");
        return new(milliseconds(Math.Clamp(place.From, from, to)), milliseconds(Math.Clamp(place.To, from, to)), label, found.Finding.Severity.ToString().ToLowerInvariant());
    }

    // A long stretch is shown at its loudest sample; at what is no number if there is any.
    private static (long From, long To) Focus(EvidenceCase found, bool decoded)
    {
        var (from, to) = found.Place;
        var length = to - from;
        if (length <= MostFrames - (2 * Around))
        {
            var room = Math.Max(Around, Math.Min(length, (MostFrames - length) / 2));
            return (Math.Max(0, from - room), Math.Min(found.Sound.Frames, to + room));
        }

        var loudest = Loudest(found, decoded);
        var first = Math.Clamp(loudest - (MostFrames / 4), 0, Math.Max(0, found.Sound.Frames - (MostFrames / 2)));
        return (first, Math.Min(found.Sound.Frames, first + (MostFrames / 2)));
    }

    private static long Loudest(EvidenceCase found, bool decoded)
    {
        const int Block = 1 << 16;
        var (from, to) = found.Place;
        var (most, where) = (-1.0, from);
        for (var at = from; at < to; at += Block)
        {
            var (mid, side) = found.Sound.Read(at, Math.Min(to, at + Block));
            for (var i = 0; i < mid.Length; i++)
            {
                var value = decoded ? Math.Abs((double)mid[i]) + Math.Abs(found.SideGain * side[i]) : Math.Abs((double)(found.Finding.Role == ChannelRole.Side ? side[i] : mid[i]));
                if (!double.IsFinite(value))
                    return at + i;
                if (value > most)
                    (most, where) = (value, at + i);
            }
        }

        return where;
    }

    private static double[] Decode(float[] mid, float[] side, double gain)
    {
        var decoded = new double[mid.Length];
        for (var i = 0; i < decoded.Length; i++)
            decoded[i] = mid[i] + (gain * side[i]);
        return decoded;
    }
}
