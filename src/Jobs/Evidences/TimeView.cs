using Athwart.Figures;
using Athwart.Figures.Plots;
using Athwart.Metering.Portrait;
using static System.FormattableString;

namespace Athwart.Jobs.Evidences;

/// <summary>Views over time: a finding with a place is shown with as much again around it.</summary>
internal static class TimeView
{
    private const int Columns = 720;
    private const int Block = 1 << 15;
    private const double LeastSeconds = 1.5;

    public static string Waves(EvidenceCase found)
    {
        var (from, to) = Window(found);
        var portrait = Portrait(found, from, to);
        return WaveformFigure.Draw(Label(found, from), portrait.Seconds, Trace(portrait.Mid), Trace(portrait.Side), Marks(found, from, to));
    }

    public static string Spectrogram(EvidenceCase found)
    {
        var (from, to) = Window(found);
        var portrait = Portrait(found, from, to);
        return SpectrogramFigure.Draw(Label(found, from), portrait.Seconds, Grid(portrait.MidSpectrogram), Grid(portrait.SideSpectrogram));
    }

    public static string Correlation(EvidenceCase found)
    {
        var (from, to) = Window(found);
        var portrait = Portrait(found, from, to);
        return CorrelationFigure.Draw(Label(found, from), portrait.Seconds, portrait.Correlation);
    }

    public static string Vector(EvidenceCase found)
    {
        var (from, to) = (found.Place.From, found.Place.To);
        var vector = Portrait(found, from, to).Vector;
        return VectorFigure.Draw(Label(found, from), vector.Size, vector.Range, vector.Density);
    }

    public static string Levels(EvidenceCase found)
    {
        var (from, to) = Window(found);
        var portrait = Portrait(found, from, to);
        double Seconds(int column) => found.Seconds(from) + ((column + 0.5) / portrait.Columns * portrait.Seconds);
        List<(double X, double Y)> Line(RoleTrace trace) => [.. Smooth(trace.Rms).Select((level, i) => (Seconds(i), level))];
        var (mid, side) = (Line(portrait.Mid), Line(portrait.Side));
        var audible = mid.Concat(side).Select(p => p.Y).Where(l => l > -140).ToList();
        var place = found.Place;
        var plot = new Plot("Levels of mid and side", PlotAxis.Between("seconds of the take", found.Seconds(from), found.Seconds(to)), PlotAxis.Around("dBFS", audible, 1))
        {
            Curves = [new("mid", "mid", mid), new("side", "side", side)],
            Bands = found.HasPlace ? [new(found.Seconds(place.From), found.Seconds(place.To), found.Finding.Kind, found.Finding.Severity.ToString().ToLowerInvariant())] : [],
        };
        return PlotFigure.Draw(EvidencePicture.Label(found), plot);
    }

    /// <summary>A stretch of a pair in numbers small enough to draw.</summary>
    public static TakePortrait Portrait(EvidenceCase found, long from, long to)
    {
        var meter = new PortraitMeter(to - from, found.Sound.SampleRateHertz, Columns, found.SideGain);
        for (var at = from; at < to; at += Block)
        {
            var (mid, side) = found.Sound.Read(at, Math.Min(to, at + Block));
            meter.Add(mid, side);
        }

        return meter.Complete();
    }

    private static (long From, long To) Window(EvidenceCase found)
    {
        if (!found.HasPlace)
            return (0, found.Sound.Frames);
        var (from, to) = found.Place;
        var room = Math.Max((long)(LeastSeconds / 2 * found.Sound.SampleRateHertz), to - from);
        return (Math.Max(0, from - room), Math.Min(found.Sound.Frames, to + room));
    }

    // The time axis of these figures begins at nought; where they begin in the take is said.
    private static FigureLabel Label(EvidenceCase found, long from) => new(found.Id, found.Finding.Kind + (from > 0 ? Invariant($", from {found.Seconds(from):0.000} s of the take") : ""), found.Finding.Message);

    private static List<TimeMark> Marks(EvidenceCase found, long from, long to)
    {
        if (!found.HasPlace)
            return [];
        var place = found.Place;
        return [new(1, found.Finding.Severity, found.Seconds(Math.Max(from, place.From) - from), found.Seconds(Math.Min(to, place.To) - from), found.Finding.Role)];
    }

    private static WaveformTrace Trace(RoleTrace trace) => new(trace.Lowest, trace.Highest, trace.Rms);

    private static SpectrogramGrid Grid(Spectrogram s) => new(s.Columns, s.Rows, s.LowestHertz, s.HighestHertz, s.HalfDecibelSteps);

    // Three columns together: a line that jumps at every column says less.
    private static IEnumerable<double> Smooth(float[] rms) => rms.Select((_, i) =>
    {
        var (sum, count) = (0.0, 0);
        for (var j = Math.Max(0, i - 1); j <= Math.Min(rms.Length - 1, i + 1); j++, count++)
            sum += (double)rms[j] * rms[j];
        return 10 * Math.Log10((sum / count) + 1e-20);
    });
}
