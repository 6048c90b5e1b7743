using Athwart.Signals.Fourier;

namespace Athwart.Metering.Faults;

/// <summary>The complex spectra of one Hann-windowed frame of mid and side; a sine of amplitude 1 on a bin reads magnitude 1.</summary>
internal sealed class PairFrame
{
    private readonly FourierTransform _transform;
    private readonly float[] _window, _real, _imaginary;

    public PairFrame(int length)
    {
        _transform = new(length);
        (_window, _real, _imaginary) = (new float[length], new float[length], new float[length]);
        (Mid, Side) = (new (float, float)[length / 2], new (float, float)[length / 2]);
        for (var i = 0; i < length; i++)
            _window[i] = (float)((0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / length))) * 4 / length);
    }

    /// <summary>Real and imaginary part of the mid for each bin below half the rate.</summary>
    public (float Re, float Im)[] Mid { get; private set; }

    /// <summary>The side's.</summary>
    public (float Re, float Im)[] Side { get; private set; }

    /// <summary>Transforms a frame.</summary>
    public void Take(ReadOnlySpan<float> mid, ReadOnlySpan<float> side, int bins)
    {
        for (var i = 0; i < _window.Length; i++)
            (_real[i], _imaginary[i]) = (mid[i] * _window[i], side[i] * _window[i]);
        _transform.Forward(_real, _imaginary);
        for (var k = 1; k < bins; k++)
        {
            var (ar, ai, br, bi) = (_real[k], _imaginary[k], _real[^k], _imaginary[^k]);
            Mid[k] = ((ar + br) / 2, (ai - bi) / 2);
            Side[k] = ((ai + bi) / 2, (br - ar) / 2);
        }
    }
}
