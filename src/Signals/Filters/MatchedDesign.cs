using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Filters;

/// <summary>Digital sections whose amplitude follows an <see cref="AnalogueSection"/> to 0.9 of half the sample rate: no cramping.</summary>
/// <remarks>
/// <para>
/// Poles and zeros are carried over by z = e^(sT) (the matched transform), which is exact well below half the rate. What is missing
/// above is a smooth curve; one more section brings it, with fixed real poles and a numerator found by least squares on |H|², with
/// weights that grow where the error is largest (Lawson), so that the largest error is least. |B|² is linear in three unknowns over
/// φ = sin²(ω/2), and turns back into b0, b1, b2 in closed form (M. Vicanek, Matched Second Order Digital Filters, 2016, from
/// memory). The error left is measured in the tests over a grid of frequencies, Qs and gains.
/// </para>
/// <para>Only + − × ÷ √ and FixedMath: every machine computes the same bits.</para>
/// </remarks>
public static class MatchedDesign
{
    /// <summary>The part of half the sample rate that the match reaches.</summary>
    public const double Reach = 0.9;

    private const int Places = 80;
    private const int Rounds = 12;

    // In |H|²: 0.0023 is 0.01 dB.
    private const double GoodEnough = 0.0023;

    // Zeros and poles above half the rate would come back aliased. A little above they are set at half the rate or left out, whichever
    // serves better; further up they only bend gently, and are left out.
    private const double HighestPlaceSetAtHalf = 1.5;

    // Where the fixed poles lie on the negative real axis: found by trial over the grid of the tests.
    private static readonly (double First, double Second)[] PolePairs =
        [(0.2, 0.6), (0, 0.5), (0.3, 0.7), (0, 0.4), (0.2, 0.7), (0, 0.6), (0.2, 0.5), (0.2, 0.8), (0, 0.7), (0, 0.8), (0.2, 0.9), (0.4, 0.8), (0.3, 0.6), (0.2, 0.4), (0.2, 0.3), (0, 0.3), (0, 0.2), (0.3, 0.5), (0.5, 0.9), (0, 0.9), (0, 0)];

    // φ at the places of the fit.
    private static readonly double[] SquaredSines = [.. Enumerable.Range(0, Places).Select(k => FixedTrigonometry.SinPi(Place(k) / 2)).Select(s => s * s)];

    /// <summary>One section where one is enough, otherwise two.</summary>
    /// <param name="prototype">The analogue filter; its centre below half the rate.</param>
    /// <param name="sampleRateHertz">Sample rate in hertz.</param>
    /// <returns>Sections to run one after the other.</returns>
    public static IReadOnlyList<BiquadCoefficients> Sections(AnalogueSection prototype, double sampleRateHertz)
    {
        var radians = 2 * Math.PI * prototype.FrequencyHertz / sampleRateHertz;
        var (matched, also) = (Matched(prototype, radians, 1), Matched(prototype, radians, HighestPlaceSetAtHalf));
        var first = Best(matched, prototype, radians);
        if (matched == also || first.Error <= GoodEnough)
            return first.Sections;
        var second = Best(also, prototype, radians);
        return second.Error < first.Error ? second.Sections : first.Sections;
    }

    private static BiquadCoefficients Matched(AnalogueSection prototype, double radians, double highestPlace)
    {
        var (n1, n2) = Roots(prototype.B2, prototype.B1, prototype.B0, radians, highestPlace);
        var (d1, d2) = Roots(prototype.A2, prototype.A1, prototype.A0, radians, highestPlace);
        return new(1, n1, n2, d1, d2);
    }

    private static (IReadOnlyList<BiquadCoefficients> Sections, double Error) Best(BiquadCoefficients matched, AnalogueSection prototype, double radians)
    {
        var (plain, error) = Levelled(matched, prototype, radians);
        if (error <= GoodEnough)
            return ([plain], error);
        if (Corrected(matched with { B1 = 0, B2 = 0 }, 0, 0, prototype, radians) is { } single && single.Error <= GoodEnough)
            return ([single.Correction with { A1 = matched.A1, A2 = matched.A2 }], single.Error);
        IReadOnlyList<BiquadCoefficients> best = [plain];
        foreach (var (first, second) in PolePairs)
        {
            if (Corrected(matched, first, second, prototype, radians) is not { } found || found.Error >= error)
                continue;
            (best, error) = ([matched, found.Correction], found.Error);
            if (error <= GoodEnough)
                break;
        }

        return (best, error);
    }

    // The polynomial 1 + c1·z⁻¹ + c2·z⁻² with the roots of q2·s² + q1·s + q0, s in units of the centre, carried over by z = e^(sT).
    private static (double C1, double C2) Roots(double q2, double q1, double q0, double radians, double highestPlace)
    {
        if (q2 == 0)
            return q1 == 0 ? (0, 0) : (-FixedExponential.Exp(-q0 / q1 * radians), 0);
        var (half, product) = (q1 / q2 / 2 * radians, q0 / q2 * radians * radians);
        var square = (half * half) - product;
        if (square >= 0)
        {
            var far = half + Math.Sqrt(square);
            var (e, f) = (FixedExponential.Exp(-far), far == 0 ? 1 : FixedExponential.Exp(-product / far));
            return (-(e + f), e * f);
        }

        var angle = Math.Sqrt(-square);
        if (angle > highestPlace * Math.PI)
            return (0, 0);
        var size = FixedExponential.Exp(-half);
        return (-2 * size * FixedTrigonometry.CosPi(Math.Min(angle / Math.PI, 1)), size * size);
    }

    // The matched section with the gain that is right at 0 Hz, or that halves the error where 0 Hz is a null.
    private static (BiquadCoefficients Section, double Error) Levelled(BiquadCoefficients matched, AnalogueSection prototype, double radians)
    {
        var (lowest, highest) = (double.PositiveInfinity, 0.0);
        for (var k = 0; k < Places; k++)
        {
            var ratio = prototype.PowerRatioAt(Omega(k) / radians) / PowerRatio(matched, Phi(k));
            (lowest, highest) = (Math.Min(lowest, ratio), Math.Max(highest, ratio));
        }

        var atZero = prototype.B0 == 0 ? 0 : prototype.B0 / prototype.A0 * (1 + matched.A1 + matched.A2) / (1 + matched.B1 + matched.B2);
        var level = atZero == 0 ? Math.Sqrt(lowest * highest) : atZero * atZero;
        var gain = Math.Sqrt(level);
        return (matched with { B0 = gain, B1 = matched.B1 * gain, B2 = matched.B2 * gain }, Math.Max(highest / level, level / lowest) - 1);
    }

    // A section with poles at −first and −second that makes good what the matched one lacks; null when there is none.
    private static (BiquadCoefficients Correction, double Error)? Corrected(BiquadCoefficients matched, double first, double second, AnalogueSection prototype, double radians)
    {
        var poles = new BiquadCoefficients(1, first + second, first * second, 0, 0);
        Span<double> wanted = stackalloc double[Places];
        for (var k = 0; k < Places; k++)
            wanted[k] = prototype.PowerRatioAt(Omega(k) / radians) / PowerRatio(matched, Phi(k)) * PowerRatio(poles, Phi(k));
        return PowerFit(wanted) is { } fit ? (fit.Numerator with { A1 = poles.B1, A2 = poles.B2 }, fit.Error) : null;
    }

    private static (BiquadCoefficients Numerator, double Error)? PowerFit(ReadOnlySpan<double> wanted)
    {
        Span<double> weights = stackalloc double[Places];
        weights.Fill(1);
        (BiquadCoefficients Numerator, double Error)? best = null;
        for (var round = 0; round < Rounds; round++)
        {
            var (atZero, atHalf, between) = LeastSquares(wanted, weights);
            var (sum, largest) = (0.0, 0.0);
            for (var k = 0; k < Places; k++)
            {
                var error = Math.Abs((Power(atZero, atHalf, between, Phi(k)) / wanted[k]) - 1);
                largest = Math.Max(largest, error);
                weights[k] *= error + 1e-9;
                sum += weights[k];
            }

            foreach (ref var weight in weights)
                weight /= sum;
            if (Numerator(atZero, atHalf, between) is { } numerator && !(largest >= best?.Error))
                best = (numerator, largest);
        }

        return best;
    }

    // atZero·(1 − φ) + atHalf·φ + between·4φ(1 − φ) as |b0 + b1·z⁻¹ + b2·z⁻²|² with all zeros inside the circle.
    private static BiquadCoefficients? Numerator(double atZero, double atHalf, double between)
    {
        if (!(atZero > 0 && atHalf > 0))
            return null;
        var mean = (Math.Sqrt(atZero) + Math.Sqrt(atHalf)) / 2;
        var square = (mean * mean) + between;
        if (!(square >= 0))
            return null;
        var b0 = (mean + Math.Sqrt(square)) / 2;
        return new(b0, (Math.Sqrt(atZero) - Math.Sqrt(atHalf)) / 2, -between / (4 * b0), 0, 0);
    }

    private static (double AtZero, double AtHalf, double Between) LeastSquares(ReadOnlySpan<double> wanted, ReadOnlySpan<double> weights)
    {
        double aa = 0, ab = 0, ac = 0, bb = 0, bc = 0, cc = 0, av = 0, bv = 0, cv = 0;
        for (var k = 0; k < Places; k++)
        {
            var phi = Phi(k);
            var w = weights[k] / (wanted[k] * wanted[k]);
            var (a, b, c) = (1 - phi, phi, 4 * phi * (1 - phi));
            (aa, ab, ac) = (aa + (w * a * a), ab + (w * a * b), ac + (w * a * c));
            (bb, bc, cc) = (bb + (w * b * b), bc + (w * b * c), cc + (w * c * c));
            (av, bv, cv) = (av + (w * a * wanted[k]), bv + (w * b * wanted[k]), cv + (w * c * wanted[k]));
        }

        // Symmetric elimination.
        var (f, g) = (ab / aa, ac / aa);
        (bb, bc, cc, bv, cv) = (bb - (f * ab), bc - (f * ac), cc - (g * ac), bv - (f * av), cv - (g * av));
        var h = bc / bb;
        var between = (cv - (h * bv)) / (cc - (h * bc));
        var atHalf = (bv - (bc * between)) / bb;
        return ((av - (ab * atHalf) - (ac * between)) / aa, atHalf, between);
    }

    private static double Omega(int k) => Math.PI * Place(k);

    // Of half the rate; closer together towards both ends, where polynomials stray.
    private static double Place(int k) => Reach * (1 - FixedTrigonometry.CosPi((k + 1.0) / Places)) / 2;

    private static double Phi(int k) => SquaredSines[k];

    private static double Power(double atZero, double atHalf, double between, double phi) => (atZero * (1 - phi)) + (atHalf * phi) + (between * 4 * phi * (1 - phi));

    private static double PowerRatio(BiquadCoefficients c, double phi) => PolynomialPower(c.B0, c.B1, c.B2, phi) / PolynomialPower(1, c.A1, c.A2, phi);

    // |c0 + c1·z⁻¹ + c2·z⁻²|² over φ.
    private static double PolynomialPower(double c0, double c1, double c2, double phi)
    {
        var (zero, half) = (c0 + c1 + c2, c0 - c1 + c2);
        return Power(zero * zero, half * half, -4 * c0 * c2, phi);
    }
}
