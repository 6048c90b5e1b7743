namespace Athwart.Recordings;

/// <summary>The `smpl` chunk: what a sampler needs to play the recording as a note.</summary>
public sealed record SamplerNotes
{
    /// <summary>MIDI note at which it plays unchanged; 60 is middle C.</summary>
    public int UnityNote { get; init; }

    /// <summary>Fraction of a semitone above <see cref="UnityNote"/>; 0x80000000 is 50 cents.</summary>
    public uint PitchFraction { get; init; }

    /// <summary>Nanoseconds between samples.</summary>
    public uint SamplePeriodNanoseconds { get; init; }

    /// <summary>The loops.</summary>
    public IReadOnlyList<SamplerLoop> Loops { get; init; } = [];
}

/// <summary>One loop of a `smpl` chunk.</summary>
/// <param name="Id">Its cue point.</param>
/// <param name="Type">0 forward, 1 alternating, 2 backward.</param>
/// <param name="FirstFrame">The first frame played.</param>
/// <param name="LastFrame">The last frame played, inclusive as the chunk has it.</param>
/// <param name="PlayCount">How often; 0 is without end.</param>
public sealed record SamplerLoop(uint Id, uint Type, uint FirstFrame, uint LastFrame, uint PlayCount);
