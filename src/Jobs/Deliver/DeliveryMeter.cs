using Athwart.Jobs.Render;
using Athwart.Metering;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Deliver;

/// <summary>Measures what is written while it is written, and puts the figures into the file's own bext.</summary>
internal sealed class DeliveryMeter : IRenderTap
{
    private readonly LoudnessMeter _loudness;
    private readonly TruePeakMeter _left;
    private readonly TruePeakMeter _right;
    private readonly bool _mono;
    private float _peak;

    public DeliveryMeter(int sampleRateHertz, bool mono)
    {
        _loudness = new(sampleRateHertz);
        _left = new(sampleRateHertz);
        _right = new(sampleRateHertz);
        _mono = mono;
    }

    /// <summary>Loudness of what was written; complete after the render.</summary>
    public LoudnessMeasures Loudness { get; private set; } = LoudnessMeasures.Silence;

    /// <summary>The higher true peak of the channels.</summary>
    public DecibelsFullScale TruePeak { get; private set; } = DecibelsFullScale.Silence;

    /// <summary>The highest sample.</summary>
    public DecibelsFullScale SamplePeak => DecibelsFullScale.FromAmplitude(_peak);

    /// <inheritdoc/>
    public void Add(ReadOnlySpan<float> left, ReadOnlySpan<float> right)
    {
        _loudness.Add(left, right);
        _left.Add(left);
        if (!_mono)
            _right.Add(right);
        _peak = Math.Max(_peak, Math.Max(Highest(left), Highest(right)));
    }

    /// <inheritdoc/>
    public BroadcastExtension? Complete(BroadcastExtension? broadcast)
    {
        Loudness = _mono ? OneChannel(_loudness.Measure()) : _loudness.Measure();
        TruePeak = _left.Peak > _right.Peak ? _left.Peak : _right.Peak;
        return broadcast is null ? null : broadcast with
        {
            LoudnessValue = Field(Loudness.Integrated.Value),
            LoudnessRange = Field(Loudness.Range.Value),
            MaxTruePeakLevel = Field(TruePeak.Value),
            MaxMomentaryLoudness = Field(Loudness.MaxMomentary.Value),
            MaxShortTermLoudness = Field(Loudness.MaxShortTerm.Value),
        };
    }

    // Played from two channels a mono file would be 3.01 dB louder; BS.1770 counts the channels that the file has.
    private static LoudnessMeasures OneChannel(LoudnessMeasures both)
    {
        var half = Decibels.FromPowerRatio(0.5);
        return both with { Integrated = both.Integrated + half, MaxMomentary = both.MaxMomentary + half, MaxShortTerm = both.MaxShortTerm + half };
    }

    // The fields are sixteen-bit hundredths: silence and what lies beyond are left unset.
    private static double? Field(double value) => Math.Abs(value) < 300 ? Math.Round(value, 2) : null;

    private static float Highest(ReadOnlySpan<float> samples)
    {
        var highest = 0f;
        foreach (var sample in samples)
            highest = Math.Max(highest, Math.Abs(sample));
        return highest;
    }
}
