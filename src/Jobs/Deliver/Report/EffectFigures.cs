using System.Globalization;
using Athwart.Figures;
using Athwart.Jobs.Directions;
using Athwart.Metering.Direction;
using Athwart.Metering.Portrait;

namespace Athwart.Jobs.Deliver.Report;

/// <summary>From the numbers of a portrait to figures with words.</summary>
internal static class EffectFigures
{
    public static WaveformTrace Trace(RoleTrace trace) => new(trace.Lowest, trace.Highest, trace.Rms);

    public static string Waveform(int number, ReportEffect effect, TakePortrait portrait, IReadOnlyList<EffectFinding> findings)
    {
        var marks = findings.Select(f => f.Mark).OfType<TimeMark>().ToList();
        var description = $"Mid peaks at {Peak(portrait.Mid)}, side at {Peak(portrait.Side)}, over {ReportWords.Duration(portrait.Seconds)}."
            + (marks.Count == 0 ? "" : $" Marked: {string.Join(", ", marks.Select(m => Marked(m)))}.");
        return WaveformFigure.Draw(new($"effect-{Text(number)}-waveform", $"Waveform of mid and side: {effect.Name}", description), portrait.Seconds, Trace(portrait.Mid), Trace(portrait.Side), marks);
    }

    public static string Spectrogram(int number, ReportEffect effect, TakePortrait portrait)
    {
        var (mid, side) = (Grid(portrait.MidSpectrogram), Grid(portrait.SideSpectrogram));
        var description = $"Levels from 20 Hz to {new Quantities.Hertz(mid.HighestHertz)} over {ReportWords.Duration(portrait.Seconds)}; darker is louder by day, brighter is louder at night. "
            + $"Strongest in the mid: {Strongest(mid)}. Strongest in the side: {Strongest(side)}.";
        return SpectrogramFigure.Draw(new($"effect-{Text(number)}-spectrogram", $"Spectrogram of mid and side: {effect.Name}", description), portrait.Seconds, mid, side);
    }

    public static string Correlation(int number, ReportEffect effect, TakePortrait portrait)
    {
        var heard = portrait.Correlation.Where(r => !float.IsNaN(r)).ToList();
        var description = heard.Count == 0
            ? "No correlation: left or right is silent throughout."
            : $"From {Markup.Readable(heard.Min(), 2, true)} to {Markup.Readable(heard.Max(), 2, true)}, over windows of 400 ms; {Markup.Readable(100.0 * heard.Count(r => r < 0) / heard.Count, 0)} % of the time below zero.";
        return CorrelationFigure.Draw(new($"effect-{Text(number)}-correlation", $"Correlation of left and right over time: {effect.Name}", description), portrait.Seconds, portrait.Correlation);
    }

    public static string Direction(int number, ReportEffect effect, DirectionTrail trail)
    {
        var whole = trail.Whole;
        return DirectionFigure.Draw(new($"effect-{Text(number)}-direction", $"Direction of the dominant sound: {effect.Name}", DirectionWords.Of(trail)), (double)trail.FrameCount / trail.SampleRateHertz, whole.AzimuthDegrees, whole.UncertaintyDegrees, whole.DirectShare);
    }

    public static string Vector(int number, ReportEffect effect, TakePortrait portrait)
    {
        var vector = portrait.Vector;
        var description = $"How often left and right stood where, at a side level of {Overview.Level(effect.SideLevel.Value, 1, "dB", true)}; the edge is {Markup.Readable(20 * Math.Log10(vector.Range), 1)} dBFS.";
        return VectorFigure.Draw(new($"effect-{Text(number)}-vector", $"Left/right vector picture: {effect.Name}", description), vector.Size, vector.Range, vector.Density);
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Peak(RoleTrace trace) => Markup.Readable(20 * Math.Log10(trace.Peak), 1) + " dBFS";

    private static string Marked(TimeMark mark)
        => $"finding {Text(mark.Number)} ({ReportWords.Severity(mark.Severity)}) at {ReportWords.Place(mark.FromSeconds)}";

    private static SpectrogramGrid Grid(Spectrogram s) => new(s.Columns, s.Rows, s.LowestHertz, s.HighestHertz, s.HalfDecibelSteps);

    private static string Strongest(SpectrogramGrid grid)
    {
        if (grid.HalfDecibelSteps.Length == 0)
            return "nothing";
        var most = grid.HalfDecibelSteps.Max();
        if (most == 0)
            return "nothing";
        var row = Array.IndexOf(grid.HalfDecibelSteps, most) / grid.Columns;
        var hertz = grid.LowestHertz * Math.Pow(grid.HighestHertz / grid.LowestHertz, (row + 0.5) / grid.Rows);
        // A band is named to the hertz below 1 kHz and to 0.1 kHz above: it is no sharper than that.
        var step = hertz < 1000 ? 1 : 100;
        return $"{Markup.Readable((most - 255) / 2.0, 0)} dBFS near {new Quantities.Hertz(Math.Round(hertz / step) * step)}";
    }
}
