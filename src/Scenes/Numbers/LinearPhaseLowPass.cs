using Athwart.Signals.FixedMath;

namespace Athwart.Scenes.Numbers;

/// <summary>A symmetric windowed cardinal sine; the delay is taken out.</summary>
internal sealed class LinearPhaseLowPass
{
    private readonly double[] _taps;
    private readonly int _half;

    /// <param name="cutHertz">−6 dB.</param>
    /// <param name="transitionHertz">From the pass band to the stop band.</param>
    /// <param name="attenuationDecibels">How far down the stop band is.</param>
    /// <param name="rate">Sample rate in hertz.</param>
    public LinearPhaseLowPass(double cutHertz, double transitionHertz, double attenuationDecibels, double rate)
    {
        _half = (int)Math.Ceiling(KaiserWindow.Length(attenuationDecibels, transitionHertz / rate) / 2);
        _taps = new double[(2 * _half) + 1];
        var beta = KaiserWindow.Beta(attenuationDecibels);
        for (var i = -_half; i <= _half; i++)
            _taps[i + _half] = 2 * cutHertz / rate * FixedTrigonometry.Sinc(2 * cutHertz / rate * i) * KaiserWindow.At((double)i / (_half + 1), beta);
    }

    /// <summary>The filtered signal, as long as the signal; silence outside.</summary>
    public double[] Run(double[] signal)
    {
        var filtered = new double[signal.Length];
        for (var i = 0; i < signal.Length; i++)
        {
            double sum = 0;
            for (var k = Math.Max(-_half, -i); k <= Math.Min(_half, signal.Length - 1 - i); k++)
                sum += signal[i + k] * _taps[k + _half];
            filtered[i] = sum;
        }

        return filtered;
    }
}
