using System.Globalization;
using Athwart.Figures;
using Athwart.Figures.LineUp;
using Athwart.Figures.Plots;
using Athwart.Jobs.Pages;
using Athwart.Jobs.PlanRig;
using Athwart.Jobs.Storage;
using Athwart.Metering.LineUp;
using static System.FormattableString;

namespace Athwart.Jobs.LineUp;

/// <summary>The pictures of a line-up, and the page that shows them.</summary>
public static class LineUpPictures
{
    /// <summary>Writes each picture as an SVG file into a folder.</summary>
    /// <exception cref="JobException">A file is there already.</exception>
    public static void Write(string folder, LineUpReport report, bool overwrite)
    {
        ArgumentNullException.ThrowIfNull(report);
        Directory.CreateDirectory(folder);
        foreach (var (name, _, _, figure) in All(report))
            WholeFile.Write(Path.Combine(folder, name + ".svg"), StandaloneFigure.Svg(figure, Palette.Light), overwrite);
    }

    /// <summary>Writes a page with every picture and every sentence.</summary>
    /// <exception cref="JobException">The file is there already.</exception>
    public static void WritePage(string path, LineUpReport report, bool overwrite)
    {
        ArgumentNullException.ThrowIfNull(report);
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        var page = new HtmlText(text);
        PlanPage.Begin(page, report.Rig is { } rig ? $"The rig '{rig}' as measured" : "The rig as measured: " + report.Take, "one");
        PlanPage.Lines(page, "What it says", [.. LineUpWords.Of(report)], "");
        foreach (var (_, heading, say, figure) in All(report))
            page.Add($"<section><h2>{heading}</h2><p class=\"say\">{say}</p><div class=\"figures\"><figure>").Raw(figure).Raw("</figure></div></section>\n");
        PlanPage.Lines(page, "Since the last one", report.Changes, "");
        PlanPage.Lines(page, "Taken for granted", report.Result.Assumptions, "");
        PlanPage.Lines(page, "Take care", [.. report.Result.Findings.Select(f => $"{f.Message} {f.Remedy}".TrimEnd())], "care");
        PlanPage.End(page);
        WholeFile.Write(path, text.ToString(), overwrite);
    }

    /// <summary>Every picture that the measurement allows.</summary>
    internal static IEnumerable<(string Name, string Heading, string Say, string Figure)> All(LineUpReport report)
    {
        var r = report.Result;
        if (r.Directions.Count > 0)
            yield return ("arrivals", "Where sounds are heard", "Each direction of the line-up from above, and where side over mid puts it.", Arrivals(r));
        if (r.Sounds.Any(s => double.IsFinite(s.SideOverMidDecibels)))
            yield return ("sounds", "Sound by sound", "Side over mid in the direct sound of each clap. What comes from ahead or behind is hardly in the side; what comes from the sides is.", Sounds(r));
        if (r.Directions.Any(d => d.Delay.IsKnown))
            yield return ("delay", "Delay by direction", "When the side hears a sound, against the mid. A constant is electronics; a swing with direction is the distance between the capsules.", Delay(report));
        if (r.Response.Any(b => b.Mismatch.IsKnown))
            yield return ("response", "Response of the side against the mid", "The mismatch in third octaves, and the correction that takes it out: the contrary, 12 dB at most, nothing where it cannot be told.", Response(r));
        if (report.MidNoise.Bands.Count > 0)
            yield return ("noise", "Noise of both", "Third octaves of the quiet parts.", Noise(report));
    }

    private static string Arrivals(LineUpResult r)
    {
        var sign = r.SideInverted.Answer ? -1 : 1;
        var gain = r.GainOffset.IsKnown ? Math.Pow(10, r.GainOffset.Value / 20) : double.NaN;
        var arrivals = r.Directions.Select(d =>
        {
            var known = d.SignedRatio.IsKnown && double.IsFinite(gain);
            var ratio = known ? sign * d.SignedRatio.Value / gain : double.NaN;
            var spread = known ? Math.Abs(Heard(ratio + (d.SignedRatio.Uncertainty / gain), r.MidPattern) - Heard(ratio - (d.SignedRatio.Uncertainty / gain), r.MidPattern)) / 2 : 0;
            return new Arrival(d.Direction.Name, d.Direction.AzimuthDegrees, Heard(ratio, r.MidPattern), spread, d.Sounds);
        }).ToList();
        var words = string.Join("; ", arrivals.Select(a => double.IsFinite(a.HeardDegrees) ? Invariant($"{a.Name} is heard at {a.HeardDegrees:0} degrees") : $"{a.Name} cannot be told"));
        return ArrivalsFigure.Draw(new("line-up-arrivals", "Arrival directions", words + "."), arrivals);
    }

    /// <summary>sin θ / (A + B·cos θ) = r ahead: θ = atan(r·B) + asin(r·A / √(1 + r²·B²)), as docs/sources.md#matrix has it.</summary>
    private static double Heard(double ratio, double a)
    {
        var eight = ratio * (1 - a);
        return (Math.Atan(eight) + Math.Asin(Math.Clamp(ratio * a / Math.Sqrt(1 + (eight * eight)), -1, 1))) * 180 / Math.PI;
    }

    private static string Sounds(LineUpResult r)
    {
        var known = r.Sounds.Where(s => double.IsFinite(s.SideOverMidDecibels)).ToList();
        double Seconds(LineUpSound s) => (double)s.Onset / r.SampleRateHertz;
        var groups = known.GroupBy(s => s.Direction.Name, StringComparer.Ordinal).ToList();
        var (first, last) = (known.Min(Seconds), known.Max(Seconds));
        var room = Math.Max(0.5, (last - first) / 20);
        var plot = new Plot("Side over mid, sound by sound", PlotAxis.Between("seconds of the take", Math.Max(0, first - room), last + room), PlotAxis.Around("dB", known.Select(s => s.SideOverMidDecibels).Append(0), 5, plus: true))
        {
            Dots = [new("from ahead or behind", "mid", Points(known.Where(s => Math.Abs(s.Direction.Sine()) < 0.5), Seconds)), new("from the sides", "side", Points(known.Where(s => Math.Abs(s.Direction.Sine()) >= 0.5), Seconds))],
            Bands = [.. groups.Where(g => g.Key.Length > 0).Select(g => new PlotBand(g.Min(Seconds) - 0.15, g.Max(Seconds) + 0.15, g.Key, "note"))],
        };
        return PlotFigure.Draw(new("line-up-sounds", "Side over mid of each sound", Invariant($"{known.Count} sounds in {groups.Count} directions.")), plot);
    }

    private static List<PlotDot> Points(IEnumerable<LineUpSound> sounds, Func<LineUpSound, double> seconds) => [.. sounds.Select(s => new PlotDot(seconds(s), s.SideOverMidDecibels, IsHollow: s.IsSustained))];

    private static string Delay(LineUpReport report)
    {
        var r = report.Result;
        double Micro(double frames) => frames * 1e6 / r.SampleRateHertz;
        var known = r.Directions.Where(d => d.Delay.IsKnown).ToList();
        var (constant, forward, left) = (r.Delay.IsKnown ? Micro(r.Delay.Value) : double.NaN, r.SpacingForward.IsKnown ? r.SpacingForward.Value : 0, r.SpacingLeft.IsKnown ? r.SpacingLeft.Value : 0);
        var line = Enumerable.Range(-36, 73).Select(i => (X: 5.0 * i, Y: constant - (((forward * Math.Cos(i * Math.PI / 36)) + (left * Math.Sin(i * Math.PI / 36))) / report.SpeedOfSound * 1e6))).ToList();
        var plot = new Plot("When the side hears it", new("azimuth, positive to the left", -180, 180, false, [.. Enumerable.Range(-4, 9).Select(i => (45.0 * i, Invariant($"{45 * i}°").Replace('-', '−')))]), PlotAxis.Around("microseconds after the mid", known.Select(d => Micro(d.Delay.Value)).Concat(line.Select(l => l.Y)).Append(0), 5, plus: true))
        {
            Curves = double.IsNaN(constant) ? [] : [new("what delay and spacing give", "plain", line)],
            Dots = [new("measured", "side", [.. known.Select(d => new PlotDot(d.Direction.AzimuthDegrees, Micro(d.Delay.Value), Micro(d.Delay.Uncertainty), Label: d.Direction.Name))])],
            Aside = Invariant($"one frame is {Micro(1):0.0} µs"),
        };
        return PlotFigure.Draw(new("line-up-delay", "Delay by direction", string.Join("; ", known.Select(d => Invariant($"{d.Direction.Name} {Micro(d.Delay.Value):0.0} µs")))), plot);
    }

    private static string Response(LineUpResult r)
    {
        var known = r.Response.Where(b => b.Mismatch.IsKnown).ToList();
        var plot = new Plot("Side against mid, its gain taken out", PlotAxis.Frequency(Math.Min(500, known[0].NominalHertz / 1.3), known[^1].NominalHertz * 1.3), PlotAxis.Around("dB", known.SelectMany(b => (double[])[b.Mismatch.Value - b.Mismatch.Uncertainty, b.Mismatch.Value + b.Mismatch.Uncertainty, b.CorrectionDecibels]).Append(0), 1, plus: true))
        {
            Curves = [new("correction of the side", "plain", [.. known.Select(b => (b.NominalHertz, b.CorrectionDecibels))])],
            Dots = [new("mismatch; whiskers hold 95 in 100", "side", [.. known.Select(b => new PlotDot(b.NominalHertz, b.Mismatch.Value, b.Mismatch.Uncertainty))])],
        };
        return PlotFigure.Draw(new("line-up-response", "Response mismatch", string.Join("; ", known.Select(b => Invariant($"{b.NominalHertz:0} Hz {b.Mismatch.Value:0.0} dB")))), plot);
    }

    private static string Noise(LineUpReport report)
    {
        // In dB of sound where both channels' full scale is known: only then do they compare.
        var sound = report is { MidFullScale: not null, SideFullScale: not null };
        List<(double X, double Y)> Line(ChannelNoiseMeasure noise, double? fullScale) => [.. noise.Bands.Select(b => (b.NominalHertz, b.DecibelsFullScale + (sound ? fullScale!.Value + 3.0103 : 0)))];
        var (mid, side) = (Line(report.MidNoise, report.MidFullScale), Line(report.SideNoise, report.SideFullScale));
        var plot = new Plot("Noise in third octaves", PlotAxis.Frequency(20, mid[^1].X * 1.2), PlotAxis.Around(sound ? "dB of sound pressure" : "dBFS, root mean square", mid.Concat(side).Select(p => p.Y), 5))
        {
            Curves = [new("mid", "mid", mid), new("side", "side", side)],
        };
        return PlotFigure.Draw(new("line-up-noise", "Noise spectra", Invariant($"Mid {report.MidNoise.WeightedLevel.Value:0.0} dBFS(A), side {report.SideNoise.WeightedLevel.Value:0.0} dBFS(A).")), plot);
    }

    private static double Sine(this LineUpDirection direction) => direction.IsSilence ? 0 : Math.Sin(direction.AzimuthDegrees * Math.PI / 180);
}
