using Athwart.Figures.Rigs;

namespace Athwart.Figures.Findings;

/// <summary>One number of a finding.</summary>
/// <param name="Name">What was measured.</param>
/// <param name="Value">The number; may be infinite.</param>
/// <param name="Unit">Its unit; empty for a bare ratio.</param>
public sealed record FindingNumber(string Name, double Value, string Unit);

/// <summary>The numbers a finding rests on: a row each, numbers of one unit as bars at one scale.</summary>
public static class NumbersFigure
{
    private const double Width = 880;
    private const double Names = 330;
    private const double Left = 350;
    private const double Right = 720;
    private const double Row = 28;
    private const double Top = 44;

    /// <summary>Draws a row a number.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="title">Above the rows.</param>
    /// <param name="numbers">The rows.</param>
    public static string Draw(FigureLabel label, string title, IReadOnlyList<FindingNumber> numbers)
    {
        ArgumentNullException.ThrowIfNull(numbers);
        var canvas = new SvgCanvas(Width, Top + (Math.Max(1, numbers.Count) * Row) + 12, label);
        canvas.Text("caption", 20, 22, "start", title);
        if (numbers.Count == 0)
            canvas.Text("tick", 20, Top + 17, "start", "It is a matter of yes or no: there are no numbers.");
        for (var i = 0; i < numbers.Count; i++)
            Draw(canvas, numbers[i], [.. numbers.Where(n => n.Unit.Equals(numbers[i].Unit, StringComparison.Ordinal) && double.IsFinite(n.Value)).Select(n => n.Value)], Top + (i * Row));
        return canvas.Close();
    }

    private static void Draw(SvgCanvas canvas, FindingNumber number, List<double> alike, double y)
    {
        canvas.Text("tick", Names, y + 17, "end", LabelPlaces.Fit(number.Name, Names - 16));
        var (low, high) = (Math.Min(0, alike.Append(0).Min()), Math.Max(0, alike.Append(0).Max()));
        double X(double value) => Left + ((value - low) / (high - low) * (Right - Left));
        var end = Left;
        // Numbers of one unit share a scale; one that is alone is as long as it likes, which says nothing: it has no bar.
        if (high > low && double.IsFinite(number.Value) && alike.Count > 1)
        {
            canvas.Line("axis", X(0), y + 2, X(0), y + Row - 6);
            canvas.Box("block", Math.Min(X(0), X(number.Value)), y + 5, Math.Max(1, Math.Abs(X(number.Value) - X(0))), 15);
            end = Math.Max(X(0), X(number.Value)) + 8;
        }

        canvas.Text("caption", end, y + 17, "start", $"{Text(number.Value)} {number.Unit}".TrimEnd());
    }

    private static string Text(double value) => Math.Abs(value) switch
    {
        _ when !double.IsFinite(value) => Markup.Readable(value, 0),
        >= 100 => Markup.Readable(value, 0),
        >= 10 => Markup.Readable(value, 1),
        >= 0.1 or 0 => Markup.Readable(value, 2),
        _ => FormattableString.Invariant($"{value:0.####}").Replace('-', '−'),
    };
}
