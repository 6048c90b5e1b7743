using Athwart.Figures.Rigs;

namespace Athwart.Figures.Findings;

/// <summary>One stretch of a file.</summary>
/// <param name="Name">What it holds, such as 'fmt ' or 'data'.</param>
/// <param name="Offset">Its first byte.</param>
/// <param name="Length">Its bytes as they are there.</param>
/// <param name="Declared">Its bytes as its header has them; the same where header and file agree.</param>
/// <param name="IsSound">Whether it holds the samples.</param>
public sealed record FileStretch(string Name, long Offset, long Length, long Declared, bool IsSound);

/// <summary>What lies where in a file, against what its header says: small things are drawn larger than they are, so that they can be seen.</summary>
public static class FileMapFigure
{
    private const double Width = 880;
    private const double Left = 20;
    private const double Right = 860;
    private const double Top = 60;
    private const double Height = 54;
    private const double Least = 62;

    /// <summary>Draws the file from its first byte to its last.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="name">The file's name.</param>
    /// <param name="bytes">The file's length in bytes.</param>
    /// <param name="stretches">What it holds, in order.</param>
    /// <param name="wrong">The name of what a finding is about; empty for none.</param>
    /// <param name="says">What is wrong, in a few words.</param>
    public static string Draw(FigureLabel label, string name, long bytes, IReadOnlyList<FileStretch> stretches, string wrong, string says)
    {
        ArgumentNullException.ThrowIfNull(stretches);
        var canvas = new SvgCanvas(Width, Top + Height + 76, label);
        canvas.Text("caption", Left, 22, "start", LabelPlaces.Fit(name, 560));
        canvas.Text("tick", Right, 22, "end", FormattableString.Invariant($"{bytes:N0} bytes"));
        var widths = Widths(stretches);
        var x = Left;
        for (var i = 0; i < stretches.Count; i++)
        {
            var isWrong = wrong.Length > 0 && stretches[i].Name.Trim().Equals(wrong.Trim(), StringComparison.OrdinalIgnoreCase);
            Stretch(canvas, stretches[i], x, widths[i], isWrong);
            x += widths[i];
        }

        canvas.Text("offault", Left, Top + Height + 62, "start", says);
        return canvas.Close();
    }

    private static void Stretch(SvgCanvas canvas, FileStretch stretch, double x, double width, bool isWrong)
    {
        canvas.Box(stretch.IsSound ? "block mid" : "block quiet", x + 1, Top, width - 2, Height);
        if (isWrong)
            canvas.Box("outline fault", x + 1, Top - 4, width - 2, Height + 8);
        canvas.Text("tick", x + (width / 2), Top - 10, "middle", LabelPlaces.Fit(stretch.Name.Trim(), width - 4));
        canvas.Text("tick", x + (width / 2), Top + Height + 20, "middle", LabelPlaces.Fit(Size(stretch.Length), width - 2));
        if (stretch.Declared != stretch.Length)
            canvas.Text("offault", x + (width / 2), Top + Height + 38, "middle", LabelPlaces.Fit("says " + Size(stretch.Declared), Math.Max(width - 2, 150)));
    }

    private static double[] Widths(IReadOnlyList<FileStretch> stretches)
    {
        var whole = (double)Math.Max(1, stretches.Sum(s => s.Length));
        var spare = Math.Max(0, Right - Left - (Least * stretches.Count));
        var scale = stretches.Count > 0 && spare == 0 ? (Right - Left) / (Least * stretches.Count) : 1;
        return [.. stretches.Select(s => (Least * scale) + (s.Length / whole * spare))];
    }

    private static string Size(long bytes) => bytes switch
    {
        < 10_000 => FormattableString.Invariant($"{bytes} B"),
        < 10_000_000 => FormattableString.Invariant($"{bytes / 1000.0:0.#} kB"),
        _ => FormattableString.Invariant($"{bytes / 1e6:0.#} MB"),
    };
}
