using Athwart.Scenes.Faults;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rigs;
using Athwart.Scenes.Sources;
using Athwart.Scenes.Surroundings;

namespace Athwart.Scenes;

/// <summary>Draws sound scenes in which nothing is wrong: rates, words, rigs, rooms, sources and signal-to-noise by chance.</summary>
/// <remarks>
/// The peak of the louder role is set 3 to 20 dB below full scale by an <see cref="Overload"/> of a negative size, which is the
/// scene's only entry in <see cref="Scene.Faults"/>; add others after it.
/// </remarks>
public static class SceneLottery
{
    private static readonly int[] Rates = [44100, 48000, 48000, 96000, 96000, 192000];
    private static readonly double[] OmniShares = [0.25, 0.366, 0.5, 0.5, 0.7, 1];
    private static readonly SampleWord[] Words = [SampleWord.Bits24, SampleWord.Bits24, SampleWord.Bits16, SampleWord.Floating];

    /// <summary>The scene of a seed.</summary>
    /// <param name="seed">Decides everything.</param>
    /// <param name="lengthSeconds">How long it is.</param>
    public static Scene Draw(ulong seed, double lengthSeconds = 10)
    {
        var chance = new Chance(seed).Fork("lottery");
        var rig = DrawRig(chance.Fork("rig"));
        var sources = DrawSources(chance.Fork("sources"), rig.Place, lengthSeconds);
        // Signal-to-noise at the rig: the loudest source's level there against the diffuse field's.
        var level = sources.Max(source => source.LevelDecibels - Levels.Decibels((source.Trajectory.At(lengthSeconds / 2) - rig.Place).Length));
        return new()
        {
            Seed = seed,
            SampleRateHertz = Pick(Rates, chance),
            LengthSeconds = lengthSeconds,
            SpeedOfSound = chance.Between(331, 350),
            Sources = sources,
            Reflectors = DrawReflectors(chance.Fork("reflectors")),
            Ambience = [new() { LevelDecibels = level - chance.Between(10, 60), HighHertz = chance.Ratio(3000, 16000), PowerExponent = chance.Between(0, 2), Icosahedra = 1 }],
            Rig = rig,
            Faults = [new Overload(-chance.Between(3, 20))],
        };
    }

    private static Rig DrawRig(Chance chance)
    {
        RigChannel Channel() => new()
        {
            SensitivityMillivoltsPerPascal = chance.Ratio(5, 40),
            EquivalentNoiseDecibels = chance.Between(6, 20),
            LowCornerHertz = chance.Ratio(8, 50),
            LowCornerOrder = chance.Unit() < 0.5 ? 1 : 2,
            BeamHertz = chance.Unit() < 0.5 ? double.PositiveInfinity : chance.Ratio(8000, 20000),
        };
        var mid = Channel();
        var side = Channel();
        // The recordist matched the two to within some decibels.
        var matched = mid.GainDecibels + Levels.Decibels(mid.SensitivityMillivoltsPerPascal / side.SensitivityMillivoltsPerPascal);
        return new()
        {
            Place = new(0, 0, chance.Between(1, 2)),
            MidOmniShare = Pick(OmniShares, chance),
            SideForwardMetres = chance.Between(-0.06, 0.06),
            Mid = mid,
            Side = side with { GainDecibels = matched + chance.Between(-3, 3) },
            Word = Pick(Words, chance),
        };
    }

    private static SoundSource[] DrawSources(Chance chance, Place rig, double seconds)
    {
        var count = 1 + (int)(chance.Unit() * 3);
        return [.. Enumerable.Range(0, count).Select(i => new SoundSource
        {
            Name = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"source {i + 1}"),
            Signal = DrawSignal(chance, seconds),
            Trajectory = DrawTrajectory(chance, rig, seconds),
            LevelDecibels = chance.Between(60, 95),
        })];
    }

    private static Trajectory DrawTrajectory(Chance chance, Place rig, double seconds)
    {
        Place Somewhere(double widest) => rig + Place.Polar(chance.Between(-widest, widest), chance.Ratio(1, 15), chance.Between(-10, 15));
        var start = Somewhere(chance.Unit() < 0.8 ? 75 : 180);
        return chance.Unit() < 0.6 ? new FixedPlace(start) : StraightPath.Between(start, Somewhere(75), seconds);
    }

    private static SourceSignal DrawSignal(Chance chance, double seconds) => (int)(chance.Unit() * 7) switch
    {
        0 => new Clap(Every(chance, seconds, 0.7)),
        1 => new Click(Every(chance, seconds, 0.5)),
        2 => new Footsteps(Every(chance, seconds, 0.55)),
        3 => new Engine(chance.Ratio(12, 90)),
        4 => new Voice(-1, seconds + 1, chance.Ratio(90, 260)),
        5 => new ToneComplex([.. Enumerable.Range(1, 12).Select(k => k * chance.Ratio(110, 440))]),
        _ => new NoiseBand(chance.Ratio(40, 400), chance.Ratio(3000, 16000), chance.Between(0, 2)),
    };

    private static double[] Every(Chance chance, double seconds, double interval)
    {
        List<double> times = [];
        for (var time = chance.Between(0.1, interval); time < seconds - 0.2; time += interval * chance.Between(0.8, 1.6))
            times.Add(time);
        return [.. times];
    }

    private static Reflectors? DrawReflectors(Chance chance) => (int)(chance.Unit() * 3) switch
    {
        0 => null,
        1 => new Ground(chance.Between(0.1, 0.9)),
        _ => new BoxRoom(new(-chance.Between(16, 25), -chance.Between(16, 25), 0), new(chance.Between(16, 25), chance.Between(16, 25), chance.Between(6, 12)), [.. Enumerable.Range(0, 6).Select(_ => chance.Between(0.2, 0.9))], 1),
    };

    private static T Pick<T>(T[] from, Chance chance) => from[(int)(chance.Unit() * from.Length)];
}
