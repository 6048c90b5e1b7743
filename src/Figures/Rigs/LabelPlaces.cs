namespace Athwart.Figures.Rigs;

/// <summary>Where text lies in a picture, so that the next piece of text finds a place of its own.</summary>
/// <remarks>Widths are estimated at 0.55 em a letter of 13 px: what draws the text chooses the font.</remarks>
internal sealed class LabelPlaces
{
    private const double Letter = 0.55 * 13;
    private const double Above = 10;
    private const double Below = 3;
    private readonly List<(double Left, double Right, double Base)> _taken = [];

    /// <summary>How wide a text is, about, in px.</summary>
    public static double WidthOf(string text) => text.EnumerateRunes().Count() * Letter;

    /// <summary>The text, its end cut to an ellipsis where it is wider than the room, in px.</summary>
    public static string Fit(string text, double room)
    {
        var letters = (int)(room / Letter);
        var runes = text.EnumerateRunes().ToList();
        return runes.Count <= letters ? text : string.Concat(runes.Take(Math.Max(0, letters - 1)).Select(r => r.ToString())) + "…";
    }

    /// <summary>Text at the first of the places where it lies on no other; on none of them it is left out.</summary>
    public bool Text(SvgCanvas canvas, string @class, IEnumerable<(double X, double Y)> places, string anchor, string text)
    {
        foreach (var (x, y) in places)
        {
            if (!Take(x, y, anchor, WidthOf(text)))
                continue;
            canvas.Text(@class, x, y, anchor, text);
            return true;
        }

        return false;
    }

    /// <summary>Text that is drawn in any case.</summary>
    public void Fixed(SvgCanvas canvas, string @class, double x, double y, string anchor, string text)
    {
        _ = Take(x, y, anchor, WidthOf(text));
        canvas.Text(@class, x, y, anchor, text);
    }

    /// <summary>Takes a place for text drawn elsewhere; false when it is taken already.</summary>
    public bool Take(double x, double y, string anchor, double width)
    {
        var left = anchor switch { "start" => x, "end" => x - width, _ => x - (width / 2) };
        if (_taken.Exists(t => t.Left < left + width + 3 && left < t.Right + 3 && Math.Abs(t.Base - y) < Above + Below + 1))
            return false;
        _taken.Add((left, left + width, y));
        return true;
    }
}
