using Athwart.Metering.LineUp;

namespace Athwart.Jobs.LineUp;

/// <summary>Which take holds a line-up, and what is known of it.</summary>
public sealed record LineUpRequest
{
    /// <summary>A loose recording; null when it is in a library.</summary>
    public string? Path { get; init; }

    /// <summary>The library's folder; null for a loose recording.</summary>
    public string? Library { get; init; }

    /// <summary>The session, by name or by the start of its id.</summary>
    public string? Session { get; init; }

    /// <summary>The take of the session.</summary>
    public string? Take { get; init; }

    /// <summary>The rig's name: the profile is kept in the library, attached to the session and compared with earlier ones; null to keep nothing.</summary>
    public string? Rig { get; init; }

    /// <summary>What the measurement is told.</summary>
    public LineUpSettings Settings { get; init; } = new();

    /// <summary>Sound pressure level in dB at 0 dBFS of the mid, gain included; null when not known, or known by the kit.</summary>
    public double? MidFullScale { get; init; }

    /// <summary>The same of the side.</summary>
    public double? SideFullScale { get; init; }

    /// <summary>The mid's pattern by a word, a number from 0 to 1 or a microphone of the kit; null when not said.</summary>
    public string? MidPattern { get; init; }

    /// <summary>What of the kit it was recorded with.</summary>
    public LineUpKit Kit { get; init; } = LineUpKit.None;
}

/// <summary>What a line-up said.</summary>
public sealed record LineUpReport
{
    /// <summary>The take.</summary>
    public required string Take { get; init; }

    /// <summary>The channel found to be the mid, from 1; the likelier one where it cannot be told.</summary>
    public required int MidChannel { get; init; }

    /// <summary>The channel found to be the side, from 1.</summary>
    public required int SideChannel { get; init; }

    /// <summary>The measurement; its first channel is the lower of the two.</summary>
    public required LineUpResult Result { get; init; }

    /// <summary>Noise of the mid in dB(A) of sound pressure; null when its full scale is not known.</summary>
    public double? MidNoiseSoundLevel { get; init; }

    /// <summary>Noise of the side in dB(A) of sound pressure.</summary>
    public double? SideNoiseSoundLevel { get; init; }

    /// <summary>Noise of the mid at the recorder's input in dBu(A); null when recorder and gain are not known.</summary>
    public double? MidInputNoise { get; init; }

    /// <summary>The same of the side.</summary>
    public double? SideInputNoise { get; init; }

    /// <summary>Sound pressure level in dB that a full-scale sine in the mid stands for; null when not known.</summary>
    public double? MidFullScale { get; init; }

    /// <summary>The same of the side.</summary>
    public double? SideFullScale { get; init; }

    /// <summary>Speed of sound in metres a second that spacings were reckoned with.</summary>
    public double SpeedOfSound { get; init; } = new LineUpSettings().SpeedOfSound;

    /// <summary>The rig the profile was kept under; null when none was.</summary>
    public string? Rig { get; init; }

    /// <summary>What changed since the profile before, a sentence each.</summary>
    public IReadOnlyList<string> Changes { get; init; } = [];

    /// <summary>Noise of the mid in the quiet parts.</summary>
    public ChannelNoiseMeasure MidNoise => Result.Noise[Result.FirstIsMid.Answer ? 0 : 1];

    /// <summary>Noise of the side in the quiet parts.</summary>
    public ChannelNoiseMeasure SideNoise => Result.Noise[Result.FirstIsMid.Answer ? 1 : 0];
}
