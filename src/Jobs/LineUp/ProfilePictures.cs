using Athwart.Figures;
using Athwart.Figures.Plots;
using Athwart.Jobs.Storage;
using static System.FormattableString;

namespace Athwart.Jobs.LineUp;

/// <summary>How a rig went from line-up to line-up.</summary>
public static class ProfilePictures
{
    /// <summary>Writes gain, delay and noise over time, and the noise and response of the last against the first, for each rig with two profiles or more.</summary>
    /// <returns>The files.</returns>
    /// <exception cref="JobException">A file is there already.</exception>
    public static IReadOnlyList<string> Write(string folder, IReadOnlyList<RigProfileDocument> profiles, bool overwrite)
    {
        ArgumentNullException.ThrowIfNull(profiles);
        Directory.CreateDirectory(folder);
        var files = new List<string>();
        foreach (var rig in profiles.GroupBy(p => p.Rig ?? "", StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1))
        {
            var stem = string.Concat(rig.Key.Select(c => char.IsLetterOrDigit(c) ? c : '-'));
            foreach (var (name, figure) in All(rig.Key, [.. rig]))
            {
                files.Add(Path.Combine(folder, $"{stem}-{name}.svg"));
                WholeFile.Write(files[^1], StandaloneFigure.Svg(figure, Palette.Light), overwrite);
            }
        }

        return files;
    }

    /// <summary>A sentence for each change between one profile and the one before it of the same rig.</summary>
    public static IReadOnlyList<string> Changes(RigProfileDocument before, RigProfileDocument now) => RigComparison.Changes(before, now);

    private static IEnumerable<(string Name, string Figure)> All(string rig, List<RigProfileDocument> profiles)
    {
        yield return ("gain", OverTime(rig, "Gain offset, side over mid", "dB", profiles, p => p.GainOffsetDecibels, _ => 1, 0.5));
        yield return ("delay", OverTime(rig, "Delay of the side", "microseconds", profiles, p => p.DelayFrames, p => 1e6 / p.SampleRateHertz, 2));
        var (first, last) = (profiles[0], profiles[^1]);
        var plot = new Plot("Noise in third octaves, first and last", PlotAxis.Frequency(20, 20_000), PlotAxis.Around("dBFS, root mean square", Levels(first).Concat(Levels(last)), 5))
        {
            Curves = [new("mid, " + Day(first), "right", Line(first.MidNoise)), new("mid, " + Day(last), "mid", Line(last.MidNoise)), new("side, " + Day(first), "left", Line(first.SideNoise)), new("side, " + Day(last), "side", Line(last.SideNoise))],
        };
        yield return ("noise", PlotFigure.Draw(new("profile-noise", $"Noise of '{rig}'", string.Join(" ", RigComparison.Changes(first, last))), plot));
    }

    private static string OverTime(string rig, string what, string unit, List<RigProfileDocument> profiles, Func<RigProfileDocument, NumberDocument> number, Func<RigProfileDocument, double> scale, double finest)
    {
        var dots = profiles.Select((p, i) => (p, i, Number: number(p))).Where(x => x.Number.Value is not null)
            .Select(x => new PlotDot(x.i, x.Number.Value!.Value * scale(x.p), (x.Number.Uncertainty ?? 0) * scale(x.p))).ToList();
        var step = Math.Max(1, (profiles.Count + 7) / 8);
        var days = profiles.Select((p, i) => ((double)i, i % step == 0 ? Day(p) : "")).ToList();
        var plot = new Plot($"{what}: '{rig}'", new("line-up by line-up", -0.5, profiles.Count - 0.5, false, days), PlotAxis.Around(unit, dots.SelectMany(d => (double[])[d.Y - d.Uncertainty, d.Y + d.Uncertainty]), finest, 1, plus: true))
        {
            Curves = [new("", "plain", [.. dots.Select(d => (d.X, d.Y))])],
            Dots = [new("measured; whiskers hold 95 in 100", "side", dots)],
        };
        return PlotFigure.Draw(new("profile-time", $"{what} of '{rig}'", string.Join("; ", dots.Select(d => Invariant($"{Day(profiles[(int)d.X])}: {d.Y:0.00} {unit}")))), plot);
    }

    private static string Day(RigProfileDocument profile) => profile.Measured ?? profile.Take;

    private static List<(double X, double Y)> Line(NoiseDocument noise) => [.. noise.Bands.Where(b => b.Hertz <= 20_000).Select(b => (b.Hertz, b.DecibelsFullScale ?? double.NaN))];

    private static IEnumerable<double> Levels(RigProfileDocument profile) => Line(profile.MidNoise).Concat(Line(profile.SideNoise)).Select(p => p.Y);
}
