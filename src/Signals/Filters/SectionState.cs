namespace Athwart.Signals.Filters;

/// <summary>One section of one role and the two frames it remembers on either side.</summary>
internal sealed class SectionState(BiquadCoefficients coefficients)
{
    /// <summary>The weights; may change between blocks.</summary>
    public BiquadCoefficients Coefficients { get; set; } = coefficients;

    public double X1 { get; set; }

    public double X2 { get; set; }

    public double Y1 { get; set; }

    public double Y2 { get; set; }

    public void Rest() => (X1, X2, Y1, Y2) = (0, 0, 0, 0);

    public void Settle(double nothing)
    {
        if (Math.Abs(X1) < nothing && Math.Abs(X2) < nothing && Math.Abs(Y1) < nothing && Math.Abs(Y2) < nothing)
            Rest();
    }

    /// <summary>The next output, by plain arithmetic.</summary>
    public double Next(double x)
    {
        var c = Coefficients;
        var y = (((c.B0 * x) + (c.B1 * X1)) + (c.B2 * X2)) - (c.A2 * Y2) - (c.A1 * Y1);
        (X2, X1, Y2, Y1) = (X1, x, Y1, y);
        return y;
    }
}
