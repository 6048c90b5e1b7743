namespace Athwart.Figures.Plots;

/// <summary>A line through points.</summary>
/// <param name="Name">Its name in the legend; empty for none.</param>
/// <param name="Class">mid, side, left, right or plain: how it is drawn.</param>
/// <param name="Points">Its points; what is not finite breaks the line.</param>
public sealed record PlotCurve(string Name, string Class, IReadOnlyList<(double X, double Y)> Points);

/// <summary>One measured point.</summary>
/// <param name="X">Where.</param>
/// <param name="Y">How much.</param>
/// <param name="Uncertainty">Half the height of its whisker; 0 for none.</param>
/// <param name="IsHollow">Whether it is drawn as a ring.</param>
/// <param name="Label">A few words beside it; empty for none.</param>
public sealed record PlotDot(double X, double Y, double Uncertainty = 0, bool IsHollow = false, string Label = "");

/// <summary>Measured points of one kind.</summary>
/// <param name="Name">Its name in the legend; empty for none.</param>
/// <param name="Class">mid, side or plain.</param>
/// <param name="Dots">The points; one that is not finite is left out.</param>
public sealed record PlotDots(string Name, string Class, IReadOnlyList<PlotDot> Dots);

/// <summary>Bars that stand on 0, or on the lower end of an axis without one.</summary>
/// <param name="Name">The name in the legend; empty for none.</param>
/// <param name="Class">mid, side or plain.</param>
/// <param name="Width">How wide each is: the ratio of its ends on a logarithmic axis, else their difference.</param>
/// <param name="Bars">Middle and height of each; one that is not finite is left out.</param>
public sealed record PlotBars(string Name, string Class, double Width, IReadOnlyList<(double X, double Y)> Bars);

/// <summary>A tinted stretch of the x axis.</summary>
/// <param name="From">Where it begins.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Label">What it is; empty for none.</param>
/// <param name="Class">note, caution or fault.</param>
public sealed record PlotBand(double From, double To, string Label, string Class = "caution");

/// <summary>A straight line across the plot.</summary>
/// <param name="At">Where on its axis.</param>
/// <param name="IsVertical">Whether it stands; else it lies.</param>
/// <param name="Label">What it is; empty for none.</param>
public sealed record PlotGuide(double At, bool IsVertical, string Label);

/// <summary>Everything one plot shows.</summary>
/// <param name="Title">Above the plot, at the left.</param>
/// <param name="X">The axis below.</param>
/// <param name="Y">The axis at the left.</param>
public sealed record Plot(string Title, PlotAxis X, PlotAxis Y)
{
    /// <summary>Above the plot, at the right; empty for nothing.</summary>
    public string Aside { get; init; } = "";

    /// <summary>Lines.</summary>
    public IReadOnlyList<PlotCurve> Curves { get; init; } = [];

    /// <summary>Points.</summary>
    public IReadOnlyList<PlotDots> Dots { get; init; } = [];

    /// <summary>Bars.</summary>
    public IReadOnlyList<PlotBars> Bars { get; init; } = [];

    /// <summary>Tinted stretches.</summary>
    public IReadOnlyList<PlotBand> Bands { get; init; } = [];

    /// <summary>Lines across.</summary>
    public IReadOnlyList<PlotGuide> Guides { get; init; } = [];
}
