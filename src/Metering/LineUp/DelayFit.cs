namespace Athwart.Metering.LineUp;

/// <summary>The delay of B against A to a small part of a frame, from the slope of the phase of the cross power.</summary>
/// <remarks>
/// Maximises Σ w·Re(cross·e^(2πi·f·τ))/|cross| with w = 1/(noise A/power A + noise B/power B), the inverse variance of the phase:
/// the generalised cross-correlation of maximum likelihood for one direct sound in noise.
/// </remarks>
internal static class DelayFit
{
    private const double LowestHertz = 600;
    private const double HighestHertz = 16000;
    private const double NyquistShare = 0.8;
    private const double GreatestWeight = 1e6;
    private const double SearchFrames = 3;
    private const double GridFrames = 0.1;
    private const double LeastSignalOverNoise = 2;

    /// <summary>The residual delay in frames, its standard deviation by the noise, and how well phases agree with it, −1 to 1.</summary>
    /// <param name="sound">A sound whose B was cut near the right delay.</param>
    /// <param name="sign">1 when B is in phase with A, −1 when opposed, 0 when not known.</param>
    public static (double Frames, double Deviation, double Agreement) Fit(DirectSound sound, int sign)
    {
        var terms = Terms(sound);
        var (best, at) = (double.NegativeInfinity, 0.0);
        for (var tau = -SearchFrames; tau <= SearchFrames; tau += GridFrames)
        {
            var sum = Sum(terms, tau);
            var merit = sign == 0 ? Math.Abs(sum) : sign * sum;
            if (merit > best)
                (best, at) = (merit, tau);
        }

        at = Refine(terms, at);
        var total = terms.Sum(t => t.Weight);
        var curvature = terms.Sum(t => t.Weight * t.Omega * t.Omega) / sound.Window.Oversampling;
        return total > 0 ? (at, Math.Sqrt(1 / curvature), Sum(terms, at) / total) : (double.NaN, double.NaN, 0);
    }

    private static List<(double Omega, double Real, double Imaginary, double Weight)> Terms(DirectSound sound)
    {
        var (window, heard, noise) = (sound.Window, sound.Heard, sound.Noise);
        var to = window.Bin(Math.Min(HighestHertz, NyquistShare * window.Rate / 2));
        var terms = new List<(double, double, double, double)>();
        for (var k = window.Bin(LowestHertz); k <= to; k++)
        {
            var (a, b) = (heard.A[k] - noise.A[k], heard.B[k] - noise.B[k]);
            var size = Math.Sqrt((heard.CrossReal[k] * heard.CrossReal[k]) + (heard.CrossImaginary[k] * heard.CrossImaginary[k]));
            if (a <= LeastSignalOverNoise * noise.A[k] || b <= LeastSignalOverNoise * noise.B[k] || !(size > 0))
                continue;
            // Phase of a ratio: half the noise powers count, for only the part across the signal turns it.
            var weight = Math.Min(GreatestWeight, 2 / ((noise.A[k] / a) + (noise.B[k] / b)));
            terms.Add((2 * Math.PI * k / window.Transform.Length, heard.CrossReal[k] / size, heard.CrossImaginary[k] / size, weight));
        }

        return terms;
    }

    // B late by τ has the phase −ωτ: turning it back by ωτ makes the sum real.
    private static double Sum(List<(double Omega, double Real, double Imaginary, double Weight)> terms, double tau)
    {
        var sum = 0.0;
        foreach (var (omega, real, imaginary, weight) in terms)
        {
            var (sin, cos) = Math.SinCos(omega * tau);
            sum += weight * ((real * cos) - (imaginary * sin));
        }

        return sum;
    }

    /// <summary>Newton's steps to where the derivative of the sum is nought.</summary>
    private static double Refine(List<(double Omega, double Real, double Imaginary, double Weight)> terms, double tau)
    {
        for (var step = 0; step < 6; step++)
        {
            var (first, second) = (0.0, 0.0);
            foreach (var (omega, real, imaginary, weight) in terms)
            {
                var (sin, cos) = Math.SinCos(omega * tau);
                first -= weight * omega * ((real * sin) + (imaginary * cos));
                second -= weight * omega * omega * ((real * cos) - (imaginary * sin));
            }

            if (second == 0)
                break;
            tau -= Math.Clamp(first / second, -GridFrames, GridFrames);
        }

        return tau;
    }
}
