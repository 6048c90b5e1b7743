namespace Athwart.Figures.Rigs;

/// <summary>The subject of a <see cref="CoverageWedgeFigure"/>, square to the mid; metres, left positive, up to 1000 km.</summary>
/// <param name="LeftMetres">Its left edge.</param>
/// <param name="RightMetres">Its right edge, negative when right of the middle.</param>
/// <param name="DistanceMetres">Its distance, the closest where it passes.</param>
/// <param name="Passes">Whether it passes along that line.</param>
/// <param name="FromLeft">Whether it passes from the left to the right.</param>
public sealed record WedgeSubject(double LeftMetres, double RightMetres, double DistanceMetres, bool Passes, bool FromLeft);

/// <summary>Draws the subject to scale, all angles as they are; what is far wider than it is distant is cut at the sides of the picture.</summary>
internal static class WedgeSubjectDrawing
{
    private const double Margin = 26;
    private const double Label = 48;
    private const double Nearest = 72;
    private const double Farthest = 1e6;

    public static void Draw(SvgCanvas canvas, LabelPlaces places, WedgeSubject s, double centreX, double rigY, double reach)
    {
        if (!(Math.Abs(s.LeftMetres) <= Farthest && Math.Abs(s.RightMetres) <= Farthest && Math.Abs(s.DistanceMetres) <= Farthest))
        {
            places.Fixed(canvas, "ofside halo", centreX, 52, "middle", "subject not known");
            return;
        }

        var (distance, room) = (Math.Max(0, s.DistanceMetres), centreX - Margin);
        var scale = ScaleOf(s, distance, room, reach);
        var y = rigY - (distance * scale);
        double Cut(double metres) => centreX - Math.Clamp(metres * scale, -room, room);
        double left = Cut(Math.Max(s.LeftMetres, s.RightMetres)), right = Cut(Math.Min(s.LeftMetres, s.RightMetres));
        foreach (var metres in (double[])[s.LeftMetres, s.RightMetres])
        {
            // A sight line keeps its direction where the subject is cut.
            var share = Math.Min(1, room / Math.Max(Math.Abs(metres) * scale, 1e-9));
            canvas.Line("sight", centreX, rigY, centreX - (metres * scale * share), rigY - (distance * scale * share));
        }

        if (s.Passes)
            Path(canvas, left, right, y, s.FromLeft);
        else
            canvas.Box("subject", left, y - 7, Math.Max(2, right - left), 14);
        Ends(canvas, s, room / scale, centreX, room, y);
        places.Take((left + right) / 2, y + 4, "middle", right - left);
        Words(canvas, places, s, distance, (left + right) / 2, y, centreX);
    }

    /// <summary>All of it inside; but never so small that it lies on the rig, if it is in front of the rig at all.</summary>
    private static double ScaleOf(WedgeSubject s, double distance, double room, double reach)
    {
        var (far, near) = (Math.Max(Math.Abs(s.LeftMetres), Math.Abs(s.RightMetres)), Math.Min(Math.Abs(s.LeftMetres), Math.Abs(s.RightMetres)));
        var fits = Math.Min((reach - Label) / Math.Max(distance, 1e-6), room / Math.Max(far, 1e-6));
        var apart = Nearest / Math.Max(distance, 1e-6);
        var inFront = (s.LeftMetres >= 0) != (s.RightMetres > 0) || near * apart < room / 2;
        return distance > 0 && inFront ? Math.Max(fits, Math.Min(apart, (reach - Label) / Math.Max(distance, 1e-6))) : fits;
    }

    /// <summary>Two strokes say that it goes on beyond the picture.</summary>
    private static void Ends(SvgCanvas canvas, WedgeSubject s, double roomMetres, double centreX, double room, double y)
    {
        foreach (var metres in ((double[])[s.LeftMetres, s.RightMetres]).Where(m => Math.Abs(m) > roomMetres * 1.001))
        {
            var x = centreX - (Math.Sign(metres) * (room - 22));
            foreach (var stroke in (double[])[0, 8])
                canvas.Line("rung", x + stroke - 4, y + 10, x + stroke + 4, y - 10);
        }
    }

    private static void Words(SvgCanvas canvas, LabelPlaces places, WedgeSubject s, double distance, double middle, double y, double centreX)
    {
        var away = FormattableString.Invariant($"{distance:0.##} m");
        var angle = Math.Abs(Degrees(s.LeftMetres, distance) - Degrees(s.RightMetres, distance));
        var size = FormattableString.Invariant($"{Math.Abs(s.LeftMetres - s.RightMetres):0.##} m, {(angle is > 0 and < 0.5 ? "below 1" : FormattableString.Invariant($"{angle:0}"))}°");
        var half = (LabelPlaces.WidthOf(size) / 2) + 8;
        var x = Math.Clamp(middle, half, (2 * centreX) - half);
        places.Text(canvas, "ofside halo", [(x, y - 14), (x, y - 28), (x, y - 42)], "middle", size);
        // Beside the line ahead if that meets the subject.
        if (Math.Sign(s.LeftMetres) * Math.Sign(s.RightMetres) <= 0)
            places.Text(canvas, "caption halo", [(centreX + 6, y + 24), (centreX + 6, y - 30), (centreX + 6, y - 46)], "start", away);
        else
            places.Text(canvas, "caption halo", [(x, y + 24), (x, y - 30), (x, y - 46)], "middle", away);
    }

    private static double Degrees(double metres, double distance) => Math.Atan2(metres, distance) * 180 / Math.PI;

    private static void Path(SvgCanvas canvas, double left, double right, double y, bool fromLeft)
    {
        canvas.Line("path", left, y, right, y);
        var (tip, back) = fromLeft ? (right, -12) : (left, 12);
        canvas.Add($"<path class=\"arrow\" d=\"M{SvgCanvas.N(tip)} {SvgCanvas.N(y)}l{back} -7v14Z\"/>\n");
        canvas.Line("path", fromLeft ? left : right, y - 7, fromLeft ? left : right, y + 7);
    }
}
