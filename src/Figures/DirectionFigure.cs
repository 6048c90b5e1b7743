using System.Text;

namespace Athwart.Figures;

/// <summary>Where the dominant sound was over time: left at the top, right at the bottom, as tall as it is uncertain.</summary>
public static class DirectionFigure
{
    private const double Top = 24;
    private const double Height = 150;
    private const double Widest = 100;

    /// <summary>Draws the trail.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="seconds">Length of the time axis.</param>
    /// <param name="azimuthDegrees">A value a column, positive to the left; NaN for none.</param>
    /// <param name="uncertaintyDegrees">One standard deviation a column.</param>
    /// <param name="strength">How sure a column is, 0 to 1: drawn fainter below; NaN for none.</param>
    public static string Draw(FigureLabel label, double seconds, IReadOnlyList<float> azimuthDegrees, IReadOnlyList<float> uncertaintyDegrees, IReadOnlyList<float> strength)
    {
        ArgumentNullException.ThrowIfNull(azimuthDegrees);
        ArgumentNullException.ThrowIfNull(uncertaintyDegrees);
        ArgumentNullException.ThrowIfNull(strength);
        var scale = new TimeScale(seconds);
        var canvas = new SvgCanvas(TimeScale.Width, Top + Height + 24, label);
        canvas.Text("caption", TimeScale.Left, Top - 8, "start", "Direction of the dominant sound");
        canvas.Text("tick", TimeScale.Right, Top - 8, "end", "ahead of the rig; taller is less certain, gaps where nothing dominates");
        canvas.Box("plate", TimeScale.Left, Top, TimeScale.Span, Height);
        scale.Grid(canvas, Top, Top + Height);
        foreach (var (azimuth, text) in (ReadOnlySpan<(double, string)>)[(90, "90° left"), (45, "45°"), (0, "front"), (-45, "45°"), (-90, "90° right")])
        {
            canvas.Line(azimuth == 0 ? "axis" : "grid fine", TimeScale.Left, Y(azimuth), TimeScale.Right, Y(azimuth));
            canvas.Text("tick", TimeScale.Left - 6, Y(azimuth) + 4.5, "end", text);
        }

        foreach (var (@class, least, most) in (ReadOnlySpan<(string, double, double)>)[("trail faint", 0, 0.5), ("trail", 0.5, double.PositiveInfinity)])
            canvas.Path(@class, Marks(azimuthDegrees, uncertaintyDegrees, strength, least, most));
        scale.Draw(canvas, Top + Height);
        return canvas.Close();
    }

    private static double Y(double azimuth) => Top + ((1 - (Math.Clamp(azimuth, -Widest, Widest) / Widest)) * Height / 2);

    // Each column is a bar around its azimuth, at least as tall as the line is thick.
    private static StringBuilder Marks(IReadOnlyList<float> azimuth, IReadOnlyList<float> uncertainty, IReadOnlyList<float> strength, double least, double most)
    {
        var path = new StringBuilder();
        for (var c = 0; c < azimuth.Count; c++)
        {
            if (!float.IsFinite(azimuth[c]) || !(strength[c] >= least && strength[c] < most))
                continue;
            var x = TimeScale.Left + ((c + 0.5) / azimuth.Count * TimeScale.Span);
            var spread = Math.Max(1, float.IsFinite(uncertainty[c]) ? uncertainty[c] : 0);
            path.Append('M').Append(Markup.Number(Math.Round(x, 1))).Append(' ').Append(Markup.Number(Math.Round(Y(azimuth[c] + spread), 1)))
                .Append('V').Append(Markup.Number(Math.Round(Y(azimuth[c] - spread), 1)));
        }

        return path;
    }
}
