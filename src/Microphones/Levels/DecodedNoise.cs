using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Levels;

/// <summary>Where noise comes from.</summary>
public enum NoiseOrigin
{
    /// <summary>The mid microphone.</summary>
    MidMicrophone,

    /// <summary>The input the mid goes into.</summary>
    MidInput,

    /// <summary>The side microphone, scaled by the side level.</summary>
    SideMicrophone,

    /// <summary>The input the side goes into, scaled by the side level.</summary>
    SideInput,
}

/// <summary>One part of the noise of a decoded left or right.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="DecibelsA">As sound on the mid's axis, in dBA.</param>
public readonly record struct NoisePart(NoiseOrigin Origin, double DecibelsA);

/// <summary>The noise of a mid-side rig after the decode, as sound on the mid's axis, in dBA: left = mid + g·side, sensitivities matched.</summary>
/// <remarks>
/// The four noises have nothing to do with each other, so powers add: left and right = mid + g²·side alike. The mono fold
/// (left + right)/2 is the mid alone, the side's noise included in what cancels. A-weighted figures stand for the whole spectrum,
/// and the one figure of an input's noise, given at high gain, for every gain: at low gain real inputs are a little noisier.
/// Derived from the decode; see docs/sources.md#matrix.
/// </remarks>
public sealed record DecodedNoise
{
    /// <summary>Noise of the mid channel in dBA; null when not known, as all below.</summary>
    public double? MidDecibelsA { get; init; }

    /// <summary>Noise of the side channel in dBA, before the side level.</summary>
    public double? SideDecibelsA { get; init; }

    /// <summary>Noise of the decoded left, and of the right, in dBA.</summary>
    public double? LeftRightDecibelsA { get; init; }

    /// <summary>Noise of the mono fold in dBA: the mid's.</summary>
    public double? MonoDecibelsA => MidDecibelsA;

    /// <summary>How much noisier left and right are than the mid, in dB, 0 or more.</summary>
    public double? SideCostDecibels { get; init; }

    /// <summary>From the noise of left or right to the quietest wanted sound in front, in dB.</summary>
    public double? SignalToNoiseDecibels { get; init; }

    /// <summary>From the noise of the mono fold to the quietest wanted sound in front, in dB.</summary>
    public double? MonoSignalToNoiseDecibels { get; init; }

    /// <summary>The parts of left or right that are known, in the order of <see cref="NoiseOrigin"/>.</summary>
    public required IReadOnlyList<NoisePart> Parts { get; init; }

    /// <summary>True when the two microphones together make more noise than the two inputs; null when not all are known.</summary>
    public bool? MicrophonesDominate { get; init; }

    /// <summary>Why an answer is null; empty when none is.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>The noise of left and right in dBA from that of the mid and side channels and the side level in dB (−∞ for no side).</summary>
    public static double Combine(double midDecibelsA, double sideDecibelsA, double sideLevelDecibels)
        => SoundPressure.PowerSum(midDecibelsA, sideDecibelsA + sideLevelDecibels);

    /// <summary>The noise of a rig.</summary>
    /// <param name="mid">The mid microphone as it is set.</param>
    /// <param name="side">The side microphone as it is set.</param>
    /// <param name="recorder">What they go into; null for the microphones alone, as if the inputs were silent.</param>
    /// <param name="sideLevelDecibels">The side level 20·lg(gS/gM) in dB after the match; −∞ for no side.</param>
    /// <param name="quietestDecibels">The quietest wanted sound at the microphones, in dB SPL; null when it does not matter.</param>
    /// <exception cref="ArgumentOutOfRangeException">The side level is NaN or +∞, or a sensitivity is not above 0.</exception>
    public static DecodedNoise For(MicrophoneSetting mid, MicrophoneSetting side, Recorder? recorder, double sideLevelDecibels, double? quietestDecibels = null)
    {
        ArgumentNullException.ThrowIfNull(mid);
        ArgumentNullException.ThrowIfNull(side);
        Require.Within(sideLevelDecibels, double.NegativeInfinity, double.MaxValue);
        var parts = new NoiseParts(mid, side, recorder, sideLevelDecibels);
        var (midNoise, leftRight) = (parts.Mid, parts.LeftRight);
        return new()
        {
            MidDecibelsA = midNoise,
            SideDecibelsA = parts.Side,
            LeftRightDecibelsA = leftRight,
            SideCostDecibels = leftRight - midNoise,
            SignalToNoiseDecibels = quietestDecibels - leftRight,
            MonoSignalToNoiseDecibels = quietestDecibels - midNoise,
            Parts = parts.Known(),
            MicrophonesDominate = parts.MicrophonesDominate,
            Reasons = parts.Reasons(),
        };
    }
}
