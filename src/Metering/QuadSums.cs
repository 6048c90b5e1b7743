namespace Athwart.Metering;

/// <summary>Sums of all products of mid, side, left and right that a least-squares fit needs.</summary>
internal readonly record struct QuadSums(PairSums MidSide, PairSums MidLeft, PairSums SideLeft, PairSums MidRight, PairSums SideRight)
{
    /// <summary>ΣLL + ΣRR.</summary>
    public double Target => MidLeft.SecondSquared + MidRight.SecondSquared;

    public static QuadSums operator +(QuadSums a, QuadSums b) => new(
        a.MidSide + b.MidSide, a.MidLeft + b.MidLeft, a.SideLeft + b.SideLeft, a.MidRight + b.MidRight, a.SideRight + b.SideRight);

    public static QuadSums Of(ReadOnlySpan<float> mid, ReadOnlySpan<float> side, ReadOnlySpan<float> left, ReadOnlySpan<float> right) => new(
        PairSums.Of(mid, side), PairSums.Of(mid, left), PairSums.Of(side, left), PairSums.Of(mid, right), PairSums.Of(side, right));

    /// <summary>Shares of mid and side in left and in right; false when mid and side cannot be told apart.</summary>
    public bool TrySolve(out PairMatrix matrix)
    {
        var (mm, ss, ms) = (MidSide.FirstSquared, MidSide.SecondSquared, MidSide.Product);
        var determinant = (mm * ss) - (ms * ms);
        matrix = default;
        if (!(determinant > 1e-8 * mm * ss))
            return false;
        matrix = new(
            ((MidLeft.Product * ss) - (SideLeft.Product * ms)) / determinant,
            ((SideLeft.Product * mm) - (MidLeft.Product * ms)) / determinant,
            ((MidRight.Product * ss) - (SideRight.Product * ms)) / determinant,
            ((SideRight.Product * mm) - (MidRight.Product * ms)) / determinant);
        return true;
    }

    /// <summary>Power that a matrix leaves over in left and right, as a share of their power; 0 when both are silent.</summary>
    public double ResidualShare(PairMatrix m)
    {
        var left = Left(m.LeftMid, m.LeftSide, MidLeft, SideLeft);
        var right = Left(m.RightMid, m.RightSide, MidRight, SideRight);
        return Target > 0 ? Math.Max(0, left + right) / Target : 0;
    }

    private double Left(double a, double b, PairSums withMid, PairSums withSide) =>
        withMid.SecondSquared + (a * a * MidSide.FirstSquared) + (b * b * MidSide.SecondSquared)
        + (2 * ((a * b * MidSide.Product) - (a * withMid.Product) - (b * withSide.Product)));
}

/// <summary>left = LeftMid·mid + LeftSide·side; right = RightMid·mid + RightSide·side.</summary>
internal readonly record struct PairMatrix(double LeftMid, double LeftSide, double RightMid, double RightSide)
{
    /// <summary>The same with what was called mid and side exchanged.</summary>
    public PairMatrix RolesSwapped => new(LeftSide, LeftMid, RightSide, RightMid);
}
