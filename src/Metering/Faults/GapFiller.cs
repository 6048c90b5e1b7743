namespace Athwart.Metering.Faults;

/// <summary>Fills in a few unknown samples so that the residual of a linear predictor around them becomes as small as it can be.</summary>
/// <remarks>Least-squares interpolation of autoregressive signals (Janssen, Veldhuis and Vries 1986, from memory).</remarks>
internal static class GapFiller
{
    /// <summary>Replaces samples from..to of x; false when the equations cannot be solved.</summary>
    /// <param name="x">Samples; Order known ones on both sides of the gap.</param>
    /// <param name="from">First unknown sample.</param>
    /// <param name="to">First known sample after the gap.</param>
    /// <param name="predictor">The model.</param>
    public static bool Fill(Span<float> x, int from, int to, LinearPredictor predictor)
    {
        var n = to - from;
        Span<double> b = stackalloc double[LinearPredictor.Order + 1];
        Autocorrelate(predictor.Coefficients, b);
        Span<double> matrix = stackalloc double[n * n];
        Span<double> right = stackalloc double[n];
        for (var i = 0; i < n; i++)
        {
            for (var lag = -LinearPredictor.Order; lag <= LinearPredictor.Order; lag++)
            {
                var at = from + i + lag;
                if (at >= from && at < to)
                    matrix[(i * n) + at - from] = b[Math.Abs(lag)];
                else
                    right[i] -= b[Math.Abs(lag)] * x[at];
            }
        }

        if (!Cholesky(matrix, right, n))
            return false;
        for (var i = 0; i < n; i++)
            x[from + i] = (float)right[i];
        return true;
    }

    private static void Autocorrelate(ReadOnlySpan<double> a, Span<double> b)
    {
        for (var lag = 0; lag < b.Length; lag++)
        {
            b[lag] = 0;
            for (var k = 0; k + lag < a.Length; k++)
                b[lag] += a[k] * a[k + lag];
        }
    }

    /// <summary>Solves a symmetric positive system in place.</summary>
    private static bool Cholesky(Span<double> m, Span<double> v, int n)
    {
        for (var j = 0; j < n; j++)
        {
            for (var i = j; i < n; i++)
            {
                var sum = m[(i * n) + j];
                for (var k = 0; k < j; k++)
                    sum -= m[(i * n) + k] * m[(j * n) + k];
                if (i == j && !(sum > 0))
                    return false;
                m[(i * n) + j] = i == j ? Math.Sqrt(sum) : sum / m[(j * n) + j];
            }
        }

        for (var i = 0; i < n; i++)
        {
            for (var k = 0; k < i; k++)
                v[i] -= m[(i * n) + k] * v[k];
            v[i] /= m[(i * n) + i];
        }

        for (var i = n - 1; i >= 0; i--)
        {
            for (var k = i + 1; k < n; k++)
                v[i] -= m[(k * n) + i] * v[k];
            v[i] /= m[(i * n) + i];
        }

        return true;
    }
}
