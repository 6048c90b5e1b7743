using System.Runtime.Intrinsics;
using Athwart.Signals.Filters;

namespace Athwart.Metering.Events;

/// <summary>One second-order section run over mid and side at once, one lane each.</summary>
internal sealed class PairSection(BiquadCoefficients c)
{
    // Below this a state is silence; smaller numbers would only slow the processor down.
    private const double Nothing = 1e-30;

    private readonly Vector128<double> _b0 = Vector128.Create(c.B0), _b1 = Vector128.Create(c.B1), _b2 = Vector128.Create(c.B2);
    private readonly Vector128<double> _a1 = Vector128.Create(c.A1), _a2 = Vector128.Create(c.A2);
    private Vector128<double> _first, _second;

    /// <summary>Filters in place.</summary>
    public void Process(Span<Vector128<double>> pair)
    {
        var (first, second) = (_first, _second);
        foreach (ref var x in pair)
        {
            var y = (_b0 * x) + first;
            first = (_b1 * x) - (_a1 * y) + second;
            second = (_b2 * x) - (_a2 * y);
            x = y;
        }

        (_first, _second) = (Settled(first), Settled(second));
    }

    /// <summary>Butterworth of fourth order by the bilinear transform: two sections.</summary>
    /// <param name="hertz">The −3 dB point, below half the rate.</param>
    /// <param name="rate">Samples a second.</param>
    /// <param name="high">Whether what lies above passes.</param>
    public static PairSection[] Fourth(double hertz, double rate, bool high) => [Second(hertz, rate, high, 0.541196100146197), Second(hertz, rate, high, 1.306562964876377)];

    /// <summary>A low or high pass of second order.</summary>
    public static PairSection Second(double hertz, double rate, bool high, double q)
    {
        var w = Math.Tan(Math.PI * hertz / rate);
        var scale = 1 / (1 + (w / q) + (w * w));
        var b0 = (high ? 1 : w * w) * scale;
        return new(new(b0, high ? -2 * b0 : 2 * b0, b0, 2 * ((w * w) - 1) * scale, (1 - (w / q) + (w * w)) * scale));
    }

    private static Vector128<double> Settled(Vector128<double> state) =>
        Vector128.ConditionalSelect(Vector128.GreaterThan(Vector128.Abs(state), Vector128.Create(Nothing)), state, Vector128<double>.Zero);
}
