using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Delays;

/// <summary>The taps of a delay by a part of a frame: a cardinal sine under a Kaiser window.</summary>
/// <remarks>
/// h[k] = sinc(x)·w(x/32) with x = k − 31 − part, 64 taps. The window is 90 dB down and 0.09 of the rate wide, so that what it changes
/// stays above 0.91 of half the rate: below that the amplitude is flat within 0.001 dB and the delay right to 0.001 frame, which the tests
/// measure. T. Laakso and others, Splitting the unit delay (1996), from memory.
/// </remarks>
public static class FractionalDelay
{
    /// <summary>How many taps.</summary>
    public const int Taps = 64;

    /// <summary>The delay of the taps in whole frames, which the part is added to.</summary>
    public const int WholeFrames = (Taps / 2) - 1;

    private const double Half = Taps / 2.0;
    private const double AttenuationDecibels = 90;

    /// <summary>The taps of a delay by <see cref="WholeFrames"/> and a part.</summary>
    /// <param name="part">The part of a frame, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The part is outside.</exception>
    public static double[] Design(double part)
    {
        if (!(part is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(part), part, "The part of a frame is to be from 0 to 1.");
        var beta = KaiserWindow.Beta(AttenuationDecibels);
        var taps = new double[Taps];
        var sum = 0.0;
        for (var k = 0; k < Taps; k++)
        {
            var x = k - WholeFrames - part;
            taps[k] = FixedTrigonometry.Sinc(x) * KaiserWindow.At(x / Half, beta);
            sum += taps[k];
        }

        for (var k = 0; k < Taps; k++)
            taps[k] /= sum;
        return taps;
    }
}
