using System.Text;

namespace Athwart.Figures.Rigs;

/// <summary>Lines through points, broken where a value is missing.</summary>
internal sealed class Curves
{
    private readonly StringBuilder _path = new();
    private bool _open;

    public void To(double x, double y)
    {
        _path.Append(_open ? 'L' : 'M').Append(Markup.Number(x)).Append(' ').Append(Markup.Number(y));
        _open = true;
    }

    public void Break() => _open = false;

    public void DrawOn(SvgCanvas canvas, string @class)
    {
        if (_path.Length > 0)
            canvas.Path(@class, _path);
    }
}
