using System.Globalization;
using System.Text.RegularExpressions;
using Athwart.Figures.Plots;
using Athwart.Quantities;

namespace Athwart.Jobs.Evidences;

/// <summary>The numbers that a finding carries for third octaves, such as 'loss at 250 Hz'.</summary>
internal static partial class ThirdsView
{
    private const double ThirdOctave = 1.2599210498948732;

    public static bool Has(Finding finding) => Of(finding).Count > 2;

    public static string Draw(EvidenceCase found)
    {
        var thirds = Of(found.Finding);
        var corner = found.Finding.Evidence.FirstOrDefault(e => string.Equals(e.Name, "corner", StringComparison.Ordinal));
        var plot = new Plot(
            found.Finding.Kind + " by third octaves",
            PlotAxis.Frequency(thirds[0].Hertz / 1.3, thirds[^1].Hertz * 1.3),
            PlotAxis.Around("dB: " + thirds[0].What, thirds.Select(t => t.Value).Append(0), 1))
        {
            Bars = [new("", "side", ThirdOctave, [.. thirds.Select(t => (t.Hertz, t.Value))])],
            Guides = corner is null ? [] : [new(corner.Value, true, string.Create(CultureInfo.InvariantCulture, $"corner {corner.Value:0} Hz"))],
        };
        return PlotFigure.Draw(EvidencePicture.Label(found), plot);
    }

    private static List<(double Hertz, double Value, string What)> Of(Finding finding) =>
    [
        .. finding.Evidence.Select(e => (Match: Name().Match(e.Name), e.Value)).Where(e => e.Match.Success)
            .Select(e => (double.Parse(e.Match.Groups["hertz"].Value, CultureInfo.InvariantCulture), e.Value, e.Match.Groups["what"].Value)).OrderBy(e => e.Item1),
    ];

    [GeneratedRegex("^(?<what>.+) at (?<hertz>[0-9.]+) Hz$", RegexOptions.ExplicitCapture | RegexOptions.NonBacktracking)]
    private static partial Regex Name();
}
