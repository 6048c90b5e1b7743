using Athwart.Figures.Rigs;

namespace Athwart.Figures.LineUp;

/// <summary>Where the sounds of one direction were made, and where the rig hears them.</summary>
/// <param name="Name">What people call the direction.</param>
/// <param name="MadeDegrees">Where they were made, from the mid's axis, positive to the left.</param>
/// <param name="HeardDegrees">Where side over mid puts them; NaN when it cannot be told.</param>
/// <param name="UncertaintyDegrees">Half the width of what is as likely; 0 for none.</param>
/// <param name="Sounds">How many there were.</param>
public sealed record Arrival(string Name, double MadeDegrees, double HeardDegrees, double UncertaintyDegrees, int Sounds);

/// <summary>The rig from above, with the places the sounds were made at around it and an arrow to where each is heard.</summary>
public static class ArrivalsFigure
{
    private const double Width = 560;
    private const double CentreX = 280;
    private const double CentreY = 226;
    private const double Radius = 150;

    /// <summary>Draws the picture: 0° upwards, left on the left.</summary>
    public static string Draw(FigureLabel label, IReadOnlyList<Arrival> arrivals)
    {
        ArgumentNullException.ThrowIfNull(arrivals);
        var canvas = new SvgCanvas(Width, 478, label);
        canvas.Text("caption", 20, 24, "start", "Where sounds were made, and where they are heard");
        Ring(canvas);
        foreach (var arrival in arrivals.Where(a => double.IsFinite(a.HeardDegrees)))
            Heard(canvas, arrival);
        var places = new LabelPlaces();
        foreach (var arrival in arrivals)
            Made(canvas, arrival, places);
        canvas.Add($"<circle class=\"body\" cx=\"{SvgCanvas.N(CentreX)}\" cy=\"{SvgCanvas.N(CentreY)}\" r=\"7\"/>\n");
        canvas.Text("tick", 20, 446, "start", "rings: where the sounds were made. Arrows: where side and mid together put");
        canvas.Text("tick", 20, 464, "start", "them, at the measured gain; what comes from behind is heard mirrored ahead.");
        return canvas.Close();
    }

    private static void Ring(SvgCanvas canvas)
    {
        canvas.Add($"<circle class=\"ring edge-ring\" cx=\"{SvgCanvas.N(CentreX)}\" cy=\"{SvgCanvas.N(CentreY)}\" r=\"{SvgCanvas.N(Radius)}\"/>\n");
        for (var azimuth = -135; azimuth <= 180; azimuth += 45)
        {
            var (x, y) = At(azimuth, 1);
            canvas.Line("grid fine", CentreX, CentreY, x, y);
        }
    }

    private static void Heard(SvgCanvas canvas, Arrival arrival)
    {
        var (x, y) = At(arrival.HeardDegrees, 0.86);
        if (arrival.UncertaintyDegrees is > 0 and < 90)
        {
            var (fromX, fromY) = At(arrival.HeardDegrees + arrival.UncertaintyDegrees, 0.86);
            var (toX, toY) = At(arrival.HeardDegrees - arrival.UncertaintyDegrees, 0.86);
            canvas.Add($"<path class=\"wedge\" d=\"M{SvgCanvas.N(CentreX)} {SvgCanvas.N(CentreY)}L{SvgCanvas.N(fromX)} {SvgCanvas.N(fromY)}A{SvgCanvas.N(Radius * 0.86)} {SvgCanvas.N(Radius * 0.86)} 0 0 1 {SvgCanvas.N(toX)} {SvgCanvas.N(toY)}Z\"/>\n");
        }

        canvas.Line("path", CentreX, CentreY, x, y);
        var (leftX, leftY) = At(arrival.HeardDegrees + 5, 0.78);
        var (rightX, rightY) = At(arrival.HeardDegrees - 5, 0.78);
        canvas.Add($"<path class=\"arrow\" d=\"M{SvgCanvas.N(x)} {SvgCanvas.N(y)}L{SvgCanvas.N(leftX)} {SvgCanvas.N(leftY)}L{SvgCanvas.N(rightX)} {SvgCanvas.N(rightY)}Z\"/>\n");
    }

    private static void Made(SvgCanvas canvas, Arrival arrival, LabelPlaces places)
    {
        var (x, y) = At(arrival.MadeDegrees, 1);
        canvas.Add($"<circle class=\"place\" cx=\"{SvgCanvas.N(x)}\" cy=\"{SvgCanvas.N(y)}\" r=\"8\"/>\n");
        var anchor = x < CentreX - 40 ? "end" : x > CentreX + 40 ? "start" : "middle";
        var away = anchor switch { "end" => x - 14, "start" => x + 14, _ => x };
        var heard = double.IsFinite(arrival.HeardDegrees) ? FormattableString.Invariant($"heard {Degrees(arrival.HeardDegrees)}") : "not told";
        var top = string.Equals(anchor, "middle", StringComparison.Ordinal) ? (y < CentreY ? y - 34 : y + 24) : y - 2;
        places.Fixed(canvas, "caption", away, top, anchor, arrival.Name);
        places.Fixed(canvas, "tick", away, top + 16, anchor, heard);
    }

    private static string Degrees(double azimuth) => Math.Abs(azimuth) < 0.5 ? "at 0°"
        : FormattableString.Invariant($"{Math.Abs(azimuth):0}° {(azimuth > 0 ? "left" : "right")}");

    private static (double X, double Y) At(double azimuth, double radius)
    {
        var (sin, cos) = Math.SinCos(azimuth * Math.PI / 180);
        return (CentreX - (Radius * radius * sin), CentreY - (Radius * radius * cos));
    }
}
