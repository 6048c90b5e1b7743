using Athwart.Signals.Resampling;

namespace Athwart.Signals.Shaping;

/// <summary>Plays slower or faster, pitch and time together: mid and side alike, or one of them alone against the other.</summary>
/// <remarks>
/// This is no <see cref="IPairStage"/>, for it changes the length: <see cref="SpeedChange"/> does it, with random access. It comes first or last,
/// or the steps after it count frames of the new time. When only one role is named, both begin together at frame 0 of what is rendered and
/// the other is as recorded; what is shorter is followed by silence.
/// </remarks>
public sealed record Speed
{
    /// <summary>Names what is played how fast.</summary>
    /// <param name="ratio">1/32 to 32; 0.5 is half as fast and an octave down.</param>
    /// <param name="roles">Mid, side or both.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public Speed(double ratio, PairRoles roles = PairRoles.Both)
    {
        Ratio = SettingsRules.Within(ratio, SpeedChange.Slowest, SpeedChange.Fastest, "times the recorded speed");
        Roles = SettingsRules.Roles(roles);
    }

    /// <summary>Times the recorded speed.</summary>
    public double Ratio { get; }

    /// <summary>What is played so.</summary>
    public PairRoles Roles { get; }

    /// <summary>By how many octaves the pitch moves: log2 of the ratio; for people to read.</summary>
    public double OctavesUp() => Math.Log2(Ratio);

    /// <summary>How many frames come out: those of the longer role.</summary>
    public long OutputLength(long inputLength)
    {
        var changed = SpeedChange.OutputLength(Ratio, inputLength);
        return Roles == PairRoles.Both ? changed : Math.Max(changed, inputLength);
    }
}
