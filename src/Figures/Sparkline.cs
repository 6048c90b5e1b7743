using System.Text;

namespace Athwart.Figures;

/// <summary>An effect in the size of a word: the mid above the line, the side below it.</summary>
public static class Sparkline
{
    private const int Points = 80;
    private const double Width = 160;
    private const double Height = 40;

    /// <summary>Draws both against the louder of them; hidden from screen readers.</summary>
    public static string Draw(WaveformTrace mid, WaveformTrace side)
    {
        var canvas = new SvgCanvas(Width, Height, "spark");
        var peak = Math.Max(mid.Peak, side.Peak);
        canvas.Path("mid", Hill(mid, peak, -1));
        canvas.Path("side", Hill(side, peak, 1));
        return canvas.Close();
    }

    private static StringBuilder Hill(WaveformTrace trace, double peak, int direction)
    {
        const double Base = Height / 2;
        var points = Math.Min(Points, trace.Highest.Count);
        var path = new StringBuilder().Append("M0 ").Append(Markup.Number(Base));
        for (var i = 0; i < points; i++)
        {
            double most = 0;
            for (var c = i * trace.Highest.Count / points; c < (i + 1) * trace.Highest.Count / points; c++)
                most = Math.Max(most, Math.Max(trace.Highest[c], -trace.Lowest[c]));
            var reach = peak > 0 ? most / peak * (Base - 1) : 0;
            path.Append('L').Append(Markup.Number((i + 0.5) / points * Width)).Append(' ').Append(Markup.Number(Base + (direction * (0.4 + reach))));
        }

        return path.Append('L').Append(Markup.Number(Width)).Append(' ').Append(Markup.Number(Base)).Append('Z');
    }
}
