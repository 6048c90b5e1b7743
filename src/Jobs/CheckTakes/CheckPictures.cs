using System.Globalization;
using Athwart.Figures;
using Athwart.Figures.Plots;
using Athwart.Jobs.Directions;
using Athwart.Jobs.Evidences;
using Athwart.Jobs.Pages;
using Athwart.Jobs.PlanRig;
using Athwart.Jobs.Storage;
using Athwart.Quantities;
using Athwart.Recordings;
using static System.FormattableString;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Writes a picture for every finding, for the direction and for the width of each take, and a page that shows them all.</summary>
public static class CheckPictures
{
    /// <summary>The page's name in the folder.</summary>
    public const string Page = "findings.html";

    /// <summary>Writes; the stretches that pictures need are read again.</summary>
    /// <param name="folder">Where to; it is made if need be.</param>
    /// <param name="report">What was found.</param>
    /// <param name="overwrite">Whether files that are there may be replaced.</param>
    /// <param name="cancellation">Ends the work between pictures.</param>
    /// <returns>The report with the name of each picture.</returns>
    /// <exception cref="JobException">A file is there already.</exception>
    public static CheckReport Write(string folder, CheckReport report, bool overwrite, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(report);
        Directory.CreateDirectory(folder);
        var siblings = report.Takes.Where(t => t.Roles.SideChannel is not null).Select(t => (t.Take.Name, t.Measures.SideMinusMid.Value)).ToList();
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        var page = new HtmlText(text);
        PlanPage.Begin(page, "What was found", "one");
        var takes = new List<TakeCheck>();
        var names = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var check in report.Takes)
        {
            cancellation.ThrowIfCancellationRequested();
            takes.Add(check with { Pictures = Write(folder, Unique(names, check.Take.Name), check, report.SideLevel.AmplitudeRatio, siblings, page, overwrite, cancellation) });
        }

        page.Raw(FigureStyle.NightFilter);
        PlanPage.End(page);
        WholeFile.Write(Path.Combine(folder, Page), text.ToString(), overwrite);
        return report with { Takes = takes };
    }

    private static List<string> Write(string folder, string stem, TakeCheck check, double sideGain, List<(string, double)> siblings, HtmlText page, bool overwrite, CancellationToken cancellation)
    {
        using var sound = new TakeSound(check.Take, check.Roles);
        var files = new List<string>();
        page.Add($"<section><h2>{check.Take.Name}</h2><p class=\"say\">{(check.Findings.Count == 0 ? "Nothing was found." : "")}</p>");
        for (var i = 0; i < check.Findings.Count; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            var finding = check.Findings[i];
            var name = Invariant($"{stem}-{i + 1:00}-{finding.Kind}");
            var figure = EvidencePicture.Draw(new(Id(name), finding, sound, sideGain) { Take = check.Take.Name, Siblings = siblings, File = File(finding, check.Take) });
            files.Add(Write(folder, name, figure, overwrite));
            page.Add($"<p class=\"say\"><strong>{finding.Severity.ToString().ToLowerInvariant()}: {finding.Kind}</strong> {finding.Message} {finding.Remedy}</p><figure>").Raw(figure).Raw("</figure>\n");
        }

        foreach (var (what, say, figure) in Whole(check, stem))
        {
            _ = Write(folder, $"{stem}-{what}", figure, overwrite);
            page.Add($"<p class=\"say\">{say}</p><figure>").Raw(figure).Raw("</figure>\n");
        }

        page.Raw("</section>\n");
        return files;
    }

    private static IEnumerable<(string What, string Say, string Figure)> Whole(TakeCheck check, string stem)
    {
        if (check.Direction is { } trail)
        {
            var words = DirectionWords.Of(trail);
            yield return ("direction", words, DirectionFigure.Draw(new(Id(stem + "-direction"), "Direction of the dominant sound: " + check.Take.Name, words), (double)trail.FrameCount / trail.SampleRateHertz, trail.Whole.AzimuthDegrees, trail.Whole.UncertaintyDegrees, trail.Whole.DirectShare));
        }

        if (check.Width is { MonoLoss.Count: > 2 } width)
        {
            var words = WidthWords.Of(width, check.Take.SampleRateHertz);
            var plot = new Plot("What mono loses, by third octaves", PlotAxis.Frequency(width.MonoLoss[0].Hertz / 1.3, width.MonoLoss[^1].Hertz * 1.3), PlotAxis.Around("dB less than left and right together", width.MonoLoss.Select(b => b.LossDecibels).Append(0).Append(3.5), 1))
            {
                Bars = [new("", "side", 1.26, [.. width.MonoLoss.Select(b => (b.Hertz, b.LossDecibels))])],
                Guides = [new(3, false, "3 dB: as much side as mid")],
            };
            yield return ("width", words, PlotFigure.Draw(new(Id(stem + "-width"), "Width and mono: " + check.Take.Name, words), plot));
        }
    }

    private static string Write(string folder, string name, string figure, bool overwrite)
    {
        WholeFile.Write(Path.Combine(folder, name + ".svg"), StandaloneFigure.Svg(figure, Palette.Light), overwrite);
        return name + ".svg";
    }

    private static FileContents? File(Finding finding, TakeDescription take)
    {
        if (EvidenceViews.Of(finding.Kind) != EvidenceView.File)
            return null;
        var path = finding.File is { } file && System.IO.File.Exists(file) ? file : take.Parts[0].Path;
        return FileView.Of(path);
    }

    private static string Unique(HashSet<string> names, string take)
    {
        var stem = string.Concat(take.Select(c => char.IsLetterOrDigit(c) || c is '-' or '_' or '.' ? c : '-'));
        var name = stem;
        for (var n = 2; !names.Add(name); n++)
            name = Invariant($"{stem}-{n}");
        return name;
    }

    // An id holds letters, digits and hyphens.
    private static string Id(string name) => "f-" + string.Concat(name.Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-'));
}
