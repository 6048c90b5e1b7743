using System.Numerics;
using System.Runtime.InteropServices;

namespace Athwart.Metering.Faults;

/// <summary>Linear prediction from the past: x[n] ≈ −Σ a[k]·x[n−k]. What it cannot foresee is the residual.</summary>
/// <remarks>Autocorrelation method with a Hann window and Levinson's recursion, in double: Makhoul 1975, from memory.</remarks>
internal sealed class LinearPredictor
{
    /// <summary>Order; 0.5 ms at 48 kHz.</summary>
    public const int Order = 24;

    private const int LongestWindow = 1024;
    private readonly double[] _windowed = new double[LongestWindow];
    private readonly double[] _correlation = new double[Order + 1];
    private readonly double[] _next = new double[Order + 1];

    /// <summary>1, a[1] … a[Order].</summary>
    public double[] Coefficients { get; } = new double[Order + 1];

    /// <summary>Fits one model to two stretches, up to 1024 samples each; false when there is nothing to fit.</summary>
    public bool Fit(ReadOnlySpan<float> before, ReadOnlySpan<float> after)
    {
        _correlation.AsSpan().Clear();
        Correlate(before);
        Correlate(after);
        // A trace of white noise, 90 dB down, keeps the recursion sound where the spectrum spans more than double can invert.
        _correlation[0] *= 1 + 1e-9;
        return _correlation[0] > 1e-20 && Solve();
    }

    /// <summary>Residual of the sample at an index with at least Order samples before it.</summary>
    public double Residual(ReadOnlySpan<float> x, int at)
    {
        var sum = (double)x[at];
        for (var k = 1; k <= Order; k++)
            sum += Coefficients[k] * x[at - k];
        return sum;
    }

    /// <summary>Residual of the sample at an index, foreseen from the Order samples after it: a spectrum does not know which way time goes.</summary>
    public double Backward(ReadOnlySpan<float> x, int at)
    {
        var sum = (double)x[at];
        for (var k = 1; k <= Order; k++)
            sum += Coefficients[k] * x[at + k];
        return sum;
    }

    private void Correlate(ReadOnlySpan<float> x)
    {
        if (x.Length <= 2 * Order)
            return;
        var w = _windowed.AsSpan(0, x.Length);
        for (var i = 0; i < x.Length; i++)
            w[i] = x[i] * (0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / x.Length)));
        for (var lag = 0; lag <= Order; lag++)
            _correlation[lag] += Dot(w[lag..], w[..^lag]);
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var u = MemoryMarshal.Cast<double, Vector<double>>(a);
        var v = MemoryMarshal.Cast<double, Vector<double>>(b);
        var sums = Vector<double>.Zero;
        for (var i = 0; i < u.Length; i++)
            sums += u[i] * v[i];
        var sum = Vector.Sum(sums);
        for (var i = u.Length * Vector<double>.Count; i < a.Length; i++)
            sum += a[i] * b[i];
        return sum;
    }

    private bool Solve()
    {
        Coefficients.AsSpan().Clear();
        Coefficients[0] = 1;
        var error = _correlation[0];
        for (var m = 1; m <= Order; m++)
        {
            var sum = 0.0;
            for (var k = 0; k < m; k++)
                sum += Coefficients[k] * _correlation[m - k];
            var reflection = -sum / error;
            if (!(Math.Abs(reflection) < 1))
                return m > 1;
            for (var k = 0; k <= m; k++)
                _next[k] = Coefficients[k] + (reflection * Coefficients[m - k]);
            _next.AsSpan(0, m + 1).CopyTo(Coefficients);
            error *= 1 - (reflection * reflection);
        }

        return true;
    }
}
