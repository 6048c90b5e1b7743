namespace Athwart.Metering.LineUp;

/// <summary>One delay and the place of the side's capsule from the delays of several directions, by weighted least squares.</summary>
/// <remarks>
/// delay(a) = τ − (x·cos a + y·sin a)·rate/c. Left and right part τ from y; x needs a direction well off the side's axis in which the
/// figure-8 still hears something.
/// </remarks>
internal static class SpacingFit
{
    private const double LeastSpread = 0.3;

    /// <summary>The delay in frames, and x ahead and y to the left in metres.</summary>
    public static (Estimate Delay, Estimate Forward, Estimate Left) Fit(IReadOnlyList<LineUpDirectionMeasure> directions, double framesAMetre)
    {
        var known = directions.Where(d => d.Delay.IsKnown).ToList();
        if (!known.Any(d => Math.Abs(d.Direction.Sine) > 0.5))
        {
            var doubt = Estimate.CannotTell("neither left nor right gave a delay");
            return (doubt, doubt, doubt);
        }

        var forward = Spread(known, d => d.Cosine) > LeastSpread;
        var left = Spread(known, d => d.Sine) > LeastSpread && known.Count > (forward ? 2 : 1);
        var unknowns = new List<Func<LineUpDirection, double>> { _ => 1 };
        if (forward)
            unknowns.Add(d => -framesAMetre * d.Cosine);
        if (left)
            unknowns.Add(d => -framesAMetre * d.Sine);
        var solved = Solve(known, unknowns);
        return (
            solved[0],
            forward ? solved[1] : Estimate.CannotTell("it needs a sound from between front and side, such as 45 degrees; front and rear are in the side's null"),
            left ? solved[^1] : Estimate.CannotTell("it needs sounds from left and right"));
    }

    private static double Spread(List<LineUpDirectionMeasure> known, Func<LineUpDirection, double> of) =>
        known.Max(d => of(d.Direction)) - known.Min(d => of(d.Direction));

    private static Estimate[] Solve(List<LineUpDirectionMeasure> known, List<Func<LineUpDirection, double>> unknowns)
    {
        var n = unknowns.Count;
        var normal = new double[n, n + 1];
        var inverse = new double[n, n];
        foreach (var d in known)
        {
            // No delay is surer than a hundredth of a frame: else one direction would drown the others.
            var weight = 1 / Math.Max(1e-4, d.Delay.Uncertainty * d.Delay.Uncertainty);
            for (var i = 0; i < n; i++)
            {
                for (var j = 0; j < n; j++)
                    normal[i, j] += weight * unknowns[i](d.Direction) * unknowns[j](d.Direction);
                normal[i, n] += weight * unknowns[i](d.Direction) * d.Delay.Value;
            }
        }

        for (var i = 0; i < n; i++)
            inverse[i, i] = 1;
        Eliminate(normal, inverse, n);
        return Enumerable.Range(0, n).Select(i => Estimate.Of(normal[i, n], Math.Sqrt(Math.Max(0, inverse[i, i])))).ToArray();
    }

    /// <summary>Gauss and Jordan; the matrix is small and positive definite, so no pivots are sought.</summary>
    private static void Eliminate(double[,] normal, double[,] inverse, int n)
    {
        for (var p = 0; p < n; p++)
        {
            var pivot = normal[p, p];
            for (var j = 0; j <= n; j++)
                normal[p, j] /= pivot;
            for (var j = 0; j < n; j++)
                inverse[p, j] /= pivot;
            for (var i = 0; i < n; i++)
            {
                var factor = normal[i, p];
                if (i == p)
                    continue;
                for (var j = 0; j <= n; j++)
                    normal[i, j] -= factor * normal[p, j];
                for (var j = 0; j < n; j++)
                    inverse[i, j] -= factor * inverse[p, j];
            }
        }
    }
}
