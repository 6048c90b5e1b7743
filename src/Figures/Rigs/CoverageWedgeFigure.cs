namespace Athwart.Figures.Rigs;

/// <summary>The rig from above with its coverage and the subject to scale: the picture of the field sheet, readable in black and white.</summary>
public static class CoverageWedgeFigure
{
    private const double Width = 460;
    private const double Height = 400;
    private const double CentreX = 230;
    private const double Sideways = 188;

    /// <summary>Draws the picture; left is on the left, what the mid points at is up.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="coverageDegrees">The coverage, above 0 to 360; null when never reached; anything else is not known.</param>
    /// <param name="subject">The subject; null draws none.</param>
    public static string Draw(FigureLabel label, double? coverageDegrees, WedgeSubject? subject)
    {
        var canvas = new SvgCanvas(Width, Height, label);
        var places = new LabelPlaces();
        var known = coverageDegrees is > 0 and <= 360;
        var half = known ? Math.Min(coverageDegrees!.Value, 359.9) / 2 : 0;
        var (rigY, reach) = Room(half);
        canvas.Line("grid fine", CentreX, rigY, CentreX, 34);
        places.Fixed(canvas, "caption", 12, 22, "start", "Left");
        places.Fixed(canvas, "caption", Width - 12, 22, "end", "Right");
        places.Fixed(canvas, "caption", CentreX, Height - 10, "middle", Words(coverageDegrees, known));
        if (known)
            Wedge(canvas, half, rigY, reach);
        // Words in the wedge where its edges run behind the rig, outside it where they run in front.
        var side = rigY + (half > 90 ? -14 : 26);
        RigOutline.Reserve(places, CentreX, rigY, side);
        if (subject is not null)
            WedgeSubjectDrawing.Draw(canvas, places, subject, CentreX, rigY, reach);
        if (known)
            Edges(canvas, places, half, rigY, reach);
        RigOutline.Draw(canvas, CentreX, rigY, side);
        return canvas.Close();
    }

    private static string Words(double? coverage, bool known)
        => known ? FormattableString.Invariant($"coverage {coverage:0}°")
            : coverage is null ? "coverage never reached: nothing gets fully to one side" : "coverage not known";

    /// <summary>Where the rig stands and how far its wedge reaches, so that the wedge stays inside the picture.</summary>
    private static (double RigY, double Reach) Room(double half)
    {
        var (sin, cos) = Math.SinCos(half * Math.PI / 180);
        if (half <= 90)
            return (316, Math.Min(250, Sideways / Math.Max(sin, 0.01)));
        // A coverage beyond a half circle needs room behind the rig.
        var reach = Math.Min(Sideways, 290 / (1 - cos));
        return (58 + reach, reach);
    }

    private static void Wedge(SvgCanvas canvas, double half, double rigY, double reach)
    {
        var (leftX, leftY) = At(half, reach, rigY);
        var (rightX, rightY) = At(-half, reach, rigY);
        canvas.Add($"<path class=\"wedge\" d=\"M{SvgCanvas.N(CentreX)} {SvgCanvas.N(rigY)}L{SvgCanvas.N(leftX)} {SvgCanvas.N(leftY)}A{SvgCanvas.N(reach)} {SvgCanvas.N(reach)} 0 {(half > 90 ? 1 : 0)} 1 {SvgCanvas.N(rightX)} {SvgCanvas.N(rightY)}Z\"/>\n");
    }

    private static void Edges(SvgCanvas canvas, LabelPlaces places, double half, double rigY, double reach)
    {
        foreach (var sign in (int[])[1, -1])
        {
            // Beyond the end of the edge; where something stands there, beside the edge outside the wedge, then inside.
            (double X, double Y)[] tries = [At(sign * half, reach + 15, rigY), At(sign * (half + 6), reach + 12, rigY), At(sign * (half + 9), reach * 0.75, rigY), At(sign * (half - 9), reach * 0.75, rigY)];
            var inside = tries.Select(p => (X: p.X, Y: p.Y + 4)).Where(p => p.X is >= 16 and <= Width - 16 && p.Y is >= 34 and <= Height - 26);
            places.Text(canvas, "tick halo", inside, "middle", FormattableString.Invariant($"{half:0}°"));
        }
    }

    private static (double X, double Y) At(double azimuth, double radius, double rigY)
    {
        var (sin, cos) = Math.SinCos(azimuth * Math.PI / 180);
        return (CentreX - (radius * sin), rigY - (radius * cos));
    }
}
