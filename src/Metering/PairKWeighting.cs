using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Athwart.Signals.Filters;

namespace Athwart.Metering;

/// <summary>K-weights two channels at once and adds up the squares of what comes out; direct form 1, one channel a lane.</summary>
internal sealed class PairKWeighting(int sampleRateHertz)
{
    // Below this a state is far under any loudness gate; set to zero it cannot fall into denormals, which are slow.
    internal const double Negligible = 1e-30;

    private readonly BiquadCoefficients _shelf = KWeighting.Shelf(sampleRateHertz);
    private readonly BiquadCoefficients _highPass = KWeighting.HighPass(sampleRateHertz);
    private State _state;

    /// <summary>Whether the vector path is taken; the scalar twin gives the same to 1e-9 dB.</summary>
    public bool UseVectors { get; init; } = Vector128.IsHardwareAccelerated;

    /// <summary>Filters the next block and returns the sum of squares of each K-weighted channel.</summary>
    /// <param name="first">First channel, n samples.</param>
    /// <param name="second">Second channel, n samples.</param>
    public (double First, double Second) Process(ReadOnlySpan<float> first, ReadOnlySpan<float> second)
    {
        second = second[..first.Length];
        var sum = UseVectors ? Vectors(first, second) : Scalars(first, second);
        _state.Clean();
        return (sum[0], sum[1]);
    }

    private Vector128<double> Vectors(ReadOnlySpan<float> first, ReadOnlySpan<float> second)
    {
        var (b0, b1, b2) = (Vector128.Create(_shelf.B0), Vector128.Create(_shelf.B1), Vector128.Create(_shelf.B2));
        var (a1, a2) = (Vector128.Create(-_shelf.A1), Vector128.Create(-_shelf.A2));
        var (c1, c2) = (Vector128.Create(-_highPass.A1), Vector128.Create(-_highPass.A2));
        var lift = Vector128.Create(_highPass.B0);
        var minusTwo = Vector128.Create(-2.0);
        var (x1, x2, y1, y2, z1, z2) = (_state.X1, _state.X2, _state.Y1, _state.Y2, _state.Z1, _state.Z2);
        var sum = Vector128<double>.Zero;
        ref var p = ref MemoryMarshal.GetReference(first);
        ref var q = ref MemoryMarshal.GetReference(second);
        for (nuint i = 0; i < (nuint)first.Length; i++)
        {
            var x = Vector128.WidenLower(Vector128.Create(Unsafe.Add(ref p, i), Unsafe.Add(ref q, i), 0f, 0f));
            // What does not depend on the outputs before comes first, so that each stage adds one multiply-add to the chain from any of them.
            var y = Vector128.MultiplyAddEstimate(b0, x, Vector128.MultiplyAddEstimate(b1, x1, b2 * x2));
            y = Vector128.MultiplyAddEstimate(a1, y1, Vector128.MultiplyAddEstimate(a2, y2, y));
            var z = lift * (Vector128.MultiplyAddEstimate(minusTwo, y1, y + y2));
            z = Vector128.MultiplyAddEstimate(c1, z1, Vector128.MultiplyAddEstimate(c2, z2, z));
            sum = Vector128.MultiplyAddEstimate(z, z, sum);
            (x2, x1, y2, y1, z2, z1) = (x1, x, y1, y, z1, z);
        }

        _state = new() { X1 = x1, X2 = x2, Y1 = y1, Y2 = y2, Z1 = z1, Z2 = z2 };
        return sum;
    }

    private Vector128<double> Scalars(ReadOnlySpan<float> first, ReadOnlySpan<float> second) =>
        Vector128.Create(Scalar(first, 0), Scalar(second, 1));

    private double Scalar(ReadOnlySpan<float> samples, int lane)
    {
        var (s, h) = (_shelf, _highPass);
        var (x1, x2, y1, y2, z1, z2) = _state.Lane(lane);
        var sum = 0.0;
        foreach (double x in samples)
        {
            var y = (s.B0 * x) + (s.B1 * x1) + (s.B2 * x2) - (s.A1 * y1) - (s.A2 * y2);
            var z = (h.B0 * (y - (2 * y1) + y2)) - (h.A1 * z1) - (h.A2 * z2);
            sum += z * z;
            (x2, x1, y2, y1, z2, z1) = (x1, x, y1, y, z1, z);
        }

        _state.SetLane(lane, x1, x2, y1, y2, z1, z2);
        return sum;
    }

    private struct State
    {
        public Vector128<double> X1, X2, Y1, Y2, Z1, Z2;

        public readonly (double X1, double X2, double Y1, double Y2, double Z1, double Z2) Lane(int i) => (X1[i], X2[i], Y1[i], Y2[i], Z1[i], Z2[i]);

        public void SetLane(int i, double x1, double x2, double y1, double y2, double z1, double z2)
        {
            (X1, X2) = (X1.WithElement(i, x1), X2.WithElement(i, x2));
            (Y1, Y2) = (Y1.WithElement(i, y1), Y2.WithElement(i, y2));
            (Z1, Z2) = (Z1.WithElement(i, z1), Z2.WithElement(i, z2));
        }

        public void Clean()
        {
            (Y1, Y2) = (Cleaned(Y1), Cleaned(Y2));
            (Z1, Z2) = (Cleaned(Z1), Cleaned(Z2));
        }

        private static Vector128<double> Cleaned(Vector128<double> v) =>
            Vector128.ConditionalSelect(Vector128.LessThan(Vector128.Abs(v), Vector128.Create(Negligible)), Vector128<double>.Zero, v);
    }
}
