using Athwart.Scenes.Faults;
using Athwart.Scenes.Rigs;
using Athwart.Scenes.Sources;
using Athwart.Scenes.Surroundings;

namespace Athwart.Scenes;

/// <summary>Everything that decides a generated take: air, sources, surroundings, rig and the faults that are switched on.</summary>
/// <remarks>
/// The same scene with the same <see cref="Seed"/> renders the same samples. Pressures are in pascal; levels in dB re 20 µPa. Not
/// modelled: air absorption, proximity effect, scattering by bodies, reflection coefficients that change with frequency.
/// </remarks>
public sealed record Scene
{
    /// <summary>8000 to 384000 Hz.</summary>
    public int SampleRateHertz { get; init; } = 48000;

    /// <summary>The length of the take in seconds, before faults that shorten or lengthen it.</summary>
    public double LengthSeconds { get; init; } = 10;

    /// <summary>Decides every chance in the scene.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Metres per second; 343.2 at 20 °C.</summary>
    public double SpeedOfSound { get; init; } = 343.2;

    /// <summary>What sounds at a place.</summary>
    public IReadOnlyList<SoundSource> Sources { get; init; } = [];

    /// <summary>What the sources are mirrored in; null for open air without ground.</summary>
    public Reflectors? Reflectors { get; init; }

    /// <summary>Sound from everywhere: surroundings, reverberation.</summary>
    public IReadOnlyList<DiffuseField> Ambience { get; init; } = [];

    /// <summary>The microphones and the recorder.</summary>
    public Rig Rig { get; init; } = new();

    /// <summary>What goes wrong. Applied by stage of the recording chain, and within a stage in this order.</summary>
    public IReadOnlyList<Fault> Faults { get; init; } = [];

    /// <summary>The length in frames, before faults.</summary>
    public int Frames => (int)Math.Round(LengthSeconds * SampleRateHertz);
}
