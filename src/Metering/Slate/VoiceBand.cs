using Athwart.Signals.Filters;

namespace Athwart.Metering.Slate;

/// <summary>Brings mid and side down to about 10 000 samples a second: enough for a voice, and little to keep.</summary>
/// <remarks>Two second-order low-passes at 3 kHz (Butterworth, fourth order); what folds down lies 29 dB or more below it, enough to judge by.</remarks>
internal sealed class VoiceBand
{
    private const double Corner = 3000, Wanted = 10_000;
    private readonly SectionCascade _lowPass;
    private readonly double[] _midBlock = new double[SampleWindow.Length], _sideBlock = new double[SampleWindow.Length];
    private readonly List<float> _mid = [], _side = [];
    private int _skip;

    public VoiceBand(int sampleRateHertz)
    {
        Factor = Math.Max(1, (int)(sampleRateHertz / Wanted));
        // The poles of the fourth order lie 22.5 and 67.5 degrees off the axis: Q = 1/(2·cos).
        BiquadCoefficients[] sections = [Section(sampleRateHertz, 0.541196100146197), Section(sampleRateHertz, 1.306562964876377)];
        _lowPass = new(sections, sections);
    }

    /// <summary>Frames for each sample kept.</summary>
    public int Factor { get; }

    /// <summary>What was kept of the mid.</summary>
    public IReadOnlyList<float> Mid => _mid;

    /// <summary>What was kept of the side.</summary>
    public IReadOnlyList<float> Side => _side;

    /// <summary>Takes up to 4096 frames.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        Span<double> m = _midBlock.AsSpan(0, mid.Length), s = _sideBlock.AsSpan(0, mid.Length);
        for (var n = 0; n < mid.Length; n++)
            (m[n], s[n]) = (mid[n], side[n]);
        _lowPass.Process(m, s);
        for (; _skip < m.Length; _skip += Factor)
        {
            _mid.Add((float)m[_skip]);
            _side.Add((float)s[_skip]);
        }

        _skip -= m.Length;
    }

    // Bilinear transform of 1/(s² + s/Q + 1).
    private static BiquadCoefficients Section(int rate, double q)
    {
        var w = Math.Tan(Math.PI * Math.Min(Corner, 0.45 * rate) / rate);
        var scale = 1 / (1 + (w / q) + (w * w));
        return new(w * w * scale, 2 * w * w * scale, w * w * scale, 2 * ((w * w) - 1) * scale, (1 - (w / q) + (w * w)) * scale);
    }
}
