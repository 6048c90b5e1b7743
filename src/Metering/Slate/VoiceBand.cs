namespace Athwart.Metering.Slate;

/// <summary>Brings one channel down to about 10 000 samples a second: enough for a voice, and little to keep.</summary>
/// <remarks>Two second-order low-passes at 3 kHz (Butterworth, fourth order); what folds down lies 29 dB or more below it, enough to judge by.</remarks>
internal sealed class VoiceBand
{
    private const double Corner = 3000, Wanted = 10_000;
    private readonly Section _first, _second;
    private readonly List<float> _samples = [];
    private int _skip;

    public VoiceBand(int sampleRateHertz)
    {
        Factor = Math.Max(1, (int)(sampleRateHertz / Wanted));
        // The poles of the fourth order lie 22.5 and 67.5 degrees off the axis: Q = 1/(2·cos).
        (_first, _second) = (new(sampleRateHertz, 0.541196100146197), new(sampleRateHertz, 1.306562964876377));
    }

    /// <summary>Frames for each sample kept.</summary>
    public int Factor { get; }

    /// <summary>What was kept.</summary>
    public IReadOnlyList<float> Samples => _samples;

    public void Add(ReadOnlySpan<float> block)
    {
        foreach (var sample in block)
        {
            var low = _second.Next(_first.Next(sample));
            if (_skip-- > 0)
                continue;
            _samples.Add((float)low);
            _skip = Factor - 1;
        }
    }

    private sealed class Section
    {
        private readonly double _b0, _a1, _a2;
        private double _x1, _x2, _y1, _y2;

        public Section(int rate, double q)
        {
            // Bilinear transform of 1/(s² + s/Q + 1).
            var w = Math.Tan(Math.PI * Math.Min(Corner, 0.45 * rate) / rate);
            var scale = 1 / (1 + (w / q) + (w * w));
            (_b0, _a1, _a2) = (w * w * scale, 2 * ((w * w) - 1) * scale, (1 - (w / q) + (w * w)) * scale);
        }

        public double Next(double x)
        {
            var y = (_b0 * (x + (2 * _x1) + _x2)) - (_a1 * _y1) - (_a2 * _y2);
            (_x2, _x1, _y2, _y1) = (_x1, x, _y1, y);
            return y;
        }
    }
}
