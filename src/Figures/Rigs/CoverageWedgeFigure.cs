namespace Athwart.Figures.Rigs;

/// <summary>The subject of a <see cref="CoverageWedgeFigure"/>, square to the mid; metres, left positive.</summary>
/// <param name="LeftMetres">Its left edge.</param>
/// <param name="RightMetres">Its right edge, negative when right of the middle.</param>
/// <param name="DistanceMetres">Its distance, the closest where it passes.</param>
/// <param name="Passes">Whether it passes along that line.</param>
/// <param name="FromLeft">Whether it passes from the left to the right.</param>
public sealed record WedgeSubject(double LeftMetres, double RightMetres, double DistanceMetres, bool Passes, bool FromLeft);

/// <summary>The rig from above with its coverage and the subject to scale: the picture of the field sheet, readable in black and white.</summary>
public static class CoverageWedgeFigure
{
    private const double Width = 460;
    private const double Height = 448;
    private const double CentreX = 230;
    private const double Reach = 250;

    /// <summary>Draws the picture; left is on the left, what the mid points at is up.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="coverageDegrees">The coverage; null when never reached.</param>
    /// <param name="subject">The subject; null draws none.</param>
    public static string Draw(FigureLabel label, double? coverageDegrees, WedgeSubject? subject)
    {
        var canvas = new SvgCanvas(Width, Height, label);
        // A coverage beyond a half circle needs room behind the rig.
        var rigY = coverageDegrees > 180 ? 226 : 316;
        var reach = Math.Min(Reach, rigY - 46);
        canvas.Line("grid fine", CentreX, rigY, CentreX, 34);
        canvas.Text("caption", 12, 22, "start", "Left");
        canvas.Text("caption", Width - 12, 22, "end", "Right");
        Wedge(canvas, coverageDegrees, rigY, reach);
        if (subject is not null)
            Subject(canvas, subject, rigY, reach);
        RigOutline.Draw(canvas, CentreX, rigY);
        canvas.Text("caption", CentreX, Height - 48, "middle", coverageDegrees is { } c ? FormattableString.Invariant($"coverage {c:0}°") : "nothing gets fully to one side");
        if (subject is not null)
            canvas.Text("ofside", CentreX, Height - 29, "middle", Words(subject));
        canvas.Text("tick", CentreX, Height - 10, "middle", "the mid points up, the side's plus to the left");
        return canvas.Close();
    }

    private static void Wedge(SvgCanvas canvas, double? coverageDegrees, double rigY, double reach)
    {
        if (coverageDegrees is not { } coverage)
            return;
        var half = Math.Min(coverage, 359.9) / 2;
        var (leftX, leftY) = At(half, reach, rigY);
        var (rightX, rightY) = At(-half, reach, rigY);
        canvas.Add($"<path class=\"wedge\" d=\"M{SvgCanvas.N(CentreX)} {SvgCanvas.N(rigY)}L{SvgCanvas.N(leftX)} {SvgCanvas.N(leftY)}A{SvgCanvas.N(reach)} {SvgCanvas.N(reach)} 0 {(coverage > 180 ? 1 : 0)} 1 {SvgCanvas.N(rightX)} {SvgCanvas.N(rightY)}Z\"/>\n");
        foreach (var sign in (int[])[1, -1])
        {
            // Outside the wedge, beside its edge, where no subject is.
            var (x, y) = At(sign * Math.Min(half + 9, 172), reach * 0.6, rigY);
            canvas.Text("tick halo", Math.Clamp(x, 24, Width - 24), Math.Clamp(y, 44, Height - 76), "middle", FormattableString.Invariant($"{half:0}°"));
        }
    }

    private static void Subject(SvgCanvas canvas, WedgeSubject s, double rigY, double reach)
    {
        // The whole subject stays inside the picture: what is far or wide makes the scale smaller.
        var scale = Math.Min((reach - 24) / s.DistanceMetres, (CentreX - 26) / Math.Max(Math.Abs(s.LeftMetres), Math.Max(Math.Abs(s.RightMetres), 1e-6)));
        var y = rigY - (s.DistanceMetres * scale);
        double left = CentreX - (s.LeftMetres * scale), right = CentreX - (s.RightMetres * scale);
        foreach (var x in (double[])[left, right])
            canvas.Line("sight", CentreX, rigY, x, y);
        if (s.Passes)
            Path(canvas, left, right, y, s.FromLeft);
        else
            canvas.Box("subject", left, y - 7, Math.Max(2, right - left), 14);
    }

    private static string Words(WedgeSubject s)
    {
        var (size, angle) = (s.LeftMetres - s.RightMetres, Degrees(s.LeftMetres, s) + Degrees(-s.RightMetres, s));
        return s.Passes
            ? FormattableString.Invariant($"passes over {size:0.##} m, {s.DistanceMetres:0.##} m away at the closest: {angle:0}°")
            : FormattableString.Invariant($"subject {size:0.##} m wide, {s.DistanceMetres:0.##} m away: {angle:0}°");
    }

    private static double Degrees(double metres, WedgeSubject s) => Math.Atan2(metres, s.DistanceMetres) * 180 / Math.PI;

    private static void Path(SvgCanvas canvas, double left, double right, double y, bool fromLeft)
    {
        canvas.Line("path", left, y, right, y);
        var (tip, back) = fromLeft ? (right, -12) : (left, 12);
        canvas.Add($"<path class=\"arrow\" d=\"M{SvgCanvas.N(tip)} {SvgCanvas.N(y)}l{back} -7v14Z\"/>\n");
        canvas.Line("path", fromLeft ? left : right, y - 7, fromLeft ? left : right, y + 7);
    }

    private static (double X, double Y) At(double azimuth, double radius, double rigY)
    {
        var (sin, cos) = Math.SinCos(azimuth * Math.PI / 180);
        return (CentreX - (radius * sin), rigY - (radius * cos));
    }
}
