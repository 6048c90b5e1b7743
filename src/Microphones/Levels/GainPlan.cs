using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Levels;

/// <summary>What a gain plan is made for.</summary>
public sealed record GainPlanRequest
{
    /// <summary>Room kept above the loudest peak unless said otherwise, 6 dB: common practice, no source.</summary>
    public const double CommonHeadroomDecibels = 6;

    /// <summary>The mid microphone as it is set.</summary>
    public required MicrophoneSetting Mid { get; init; }

    /// <summary>The side microphone as it is set.</summary>
    public required MicrophoneSetting Side { get; init; }

    /// <summary>The recorder both go into.</summary>
    public required Recorder Recorder { get; init; }

    /// <summary>RMS level in dB SPL at the microphones of the quietest sound that is wanted; compared with A-weighted noise as it is.</summary>
    public required double QuietestDecibels { get; init; }

    /// <summary>The loudest sound at the microphones; each is taken to hear it on its axis, the worst case.</summary>
    public required LoudestSound Loudest { get; init; }

    /// <summary>Room to keep between the loudest peak and full scale, in dB, 0 or more.</summary>
    public double HeadroomDecibels { get; init; } = CommonHeadroomDecibels;
}

/// <summary>The gains of a mid and a side channel for a range of sound levels, and what they leave.</summary>
/// <remarks>
/// Because both channels aim at the same headroom for the same sound, their limits differ by exactly the match of their
/// sensitivities; what the steps and the ends of the gain range leave over is <see cref="TrimDecibels"/>.
/// </remarks>
public sealed record GainPlan
{
    /// <summary>The mid's channel.</summary>
    public required ChannelGain Mid { get; init; }

    /// <summary>The side's channel.</summary>
    public required ChannelGain Side { get; init; }

    /// <summary>Gain of the side − gain of the mid, in dB, at which both answer a sound alike; null when a sensitivity is not known.</summary>
    public double? MatchDecibels { get; init; }

    /// <summary>What the decode still has to add to the side, in dB, after the gains that are set: match − (side gain − mid gain).</summary>
    public double? TrimDecibels { get; init; }

    /// <summary>Both channels at one gain; null when either channel's gain is not known or no gain keeps the headroom.</summary>
    public SharedGain? Shared { get; init; }

    /// <summary>What to know before going out, the gravest first.</summary>
    public required IReadOnlyList<GainMessage> Messages { get; init; }

    /// <summary>Why an answer is null, one sentence for each figure that is not known; empty when all are.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>Makes the plan.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A level is no number, the headroom is negative or a sensitivity is not above 0.</exception>
    public static GainPlan For(GainPlanRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        Require.Finite(request.QuietestDecibels);
        Require.Finite(request.Loudest.PeakDecibels);
        Require.NotNegative(request.HeadroomDecibels);
        var reasons = new List<string>();
        GainReasons.Recorder(request.Recorder, reasons);
        var mid = ChannelGain.For(request, request.Mid, "mid", reasons);
        var side = ChannelGain.For(request, request.Side, "side", reasons);
        double? match = request.Mid.SensitivityMillivoltsPerPascal is { } m && request.Side.SensitivityMillivoltsPerPascal is { } s
            ? MicrophoneLevels.MatchDecibels(m, s)
            : null;
        return new()
        {
            Mid = mid,
            Side = side,
            MatchDecibels = match,
            TrimDecibels = match - (side.GainDecibels - mid.GainDecibels),
            Shared = SharedGain.For(request, mid, side, match),
            Messages = [.. GainMessages.For(request, mid, side).OrderBy(message => message.Kind)],
            Reasons = reasons,
        };
    }
}
