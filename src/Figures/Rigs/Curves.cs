using System.Text;

namespace Athwart.Figures.Rigs;

/// <summary>Lines through points, broken where a value is missing.</summary>
internal sealed class Curves
{
    private readonly StringBuilder _path = new();
    /// <summary>Whether the last value was there.</summary>
    public bool IsOpen { get; private set; }

    public void To(double x, double y)
    {
        _path.Append(IsOpen ? 'L' : 'M').Append(Markup.Number(x)).Append(' ').Append(Markup.Number(y));
        IsOpen = true;
    }

    public void Break() => IsOpen = false;

    public void DrawOn(SvgCanvas canvas, string @class)
    {
        if (_path.Length > 0)
            canvas.Path(@class, _path);
    }
}
