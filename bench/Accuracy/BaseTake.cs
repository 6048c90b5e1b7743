using System.Runtime.InteropServices;
using Athwart.Quantities;
using Athwart.Scenes;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rigs;

namespace Athwart.Accuracy;

/// <summary>A take in which nothing is wrong, before it is rounded to its word.</summary>
internal sealed class BaseTake
{
    private readonly Dictionary<(ChannelRole, double, double), double[]> _levels = [];

    private BaseTake(int number, Scene scene, float[] mid, float[] side, bool coincident)
    {
        (Number, Scene, Coincident) = (number, scene, coincident);
        (Mid, Side) = (Array.ConvertAll(mid, x => (double)x), Array.ConvertAll(side, x => (double)x));
    }

    public int Number { get; }

    /// <summary>Of the recording; null for a generated take.</summary>
    public string? Name { get; private init; }

    /// <summary>Rate, word and seed; for a generated take all else too.</summary>
    public Scene Scene { get; }

    public int Rate => Scene.SampleRateHertz;

    public double[] Mid { get; }

    public double[] Side { get; }

    public int Frames => Mid.Length;

    /// <summary>Whether both capsules are at one place, so that a delay is the fault's alone.</summary>
    public bool Coincident { get; }

    /// <summary>The loudest source's level at the rig against the surroundings; 30 for real recordings, where it is not known.</summary>
    public double SignalToNoise { get; private init; } = 30;

    /// <summary>Whether neither role lies 60 dB below the other: a recording of one microphone on two channels is no pair.</summary>
    public bool IsPair => Math.Abs(Levels.Decibels(Levels.Rms(Mid) + 1e-12) - Levels.Decibels(Levels.Rms(Side) + 1e-12)) < 60;

    public double[] Plane(ChannelRole role) => role == ChannelRole.Side ? Side : Mid;

    /// <summary>Draws and renders a scene, or reads it where it was rendered before.</summary>
    public static BaseTake Generated(int number)
    {
        var drawn = SceneLottery.Draw(77_000 + (ulong)number, 10);
        var coincident = number % 4 >= 2;
        var scene = drawn with { Rig = drawn.Rig with { Word = SampleWord.Floating, SideForwardMetres = coincident ? 0 : drawn.Rig.SideForwardMetres } };
        var both = Rendered($"scene-{number}", scene);
        var level = scene.Sources.Max(s => s.LevelDecibels - Levels.Decibels((s.Trajectory.At(scene.LengthSeconds / 2) - scene.Rig.Place).Length));
        return new(number, scene with { Rig = scene.Rig with { Word = drawn.Rig.Word } }, both[..(both.Length / 2)], both[(both.Length / 2)..], coincident)
        {
            SignalToNoise = level - scene.Ambience[0].LevelDecibels,
        };
    }

    /// <summary>A take of <see cref="AimedScenes"/>.</summary>
    public static BaseTake Aimed(int number)
    {
        var scene = AimedScenes.Draw(number);
        var both = Rendered($"aimed-{number}", scene);
        return new(number, scene with { Rig = scene.Rig with { Word = SampleWord.Bits24 } }, both[..(both.Length / 2)], both[(both.Length / 2)..], false);
    }

    /// <summary>Mid, then side; rendered once and kept.</summary>
    private static float[] Rendered(string name, Scene scene)
    {
        Directory.CreateDirectory(Cache);
        var path = Path.Combine(Cache, name + ".f32");
        if (!File.Exists(path))
        {
            var rendered = SceneRenderer.Render(scene);
            File.WriteAllBytes(path + ".part", [.. MemoryMarshal.AsBytes<float>(rendered.Channels[0]), .. MemoryMarshal.AsBytes<float>(rendered.Channels[1])]);
            File.Move(path + ".part", path, true);
        }

        return ReadSamples(path);
    }

    /// <summary>A stereo recording encoded to mid and side, 3 dB below its level.</summary>
    public static BaseTake Real(int number, float[] left, float[] right, int rate, string name)
    {
        float[] Matrix(float sign) => [.. left.Zip(right, (l, r) => 0.35f * (l + (sign * r)))];
        var scene = new Scene { Seed = (ulong)number, SampleRateHertz = rate, LengthSeconds = left.Length / (double)rate };
        return new(number, scene, Matrix(1), Matrix(-1), true) { Name = name };
    }

    private static float[] ReadSamples(string path)
    {
        using var file = File.OpenRead(path);
        var samples = new float[file.Length / sizeof(float)];
        file.ReadExactly(MemoryMarshal.AsBytes(samples.AsSpan()));
        return samples;
    }

    /// <summary>Where rendered scenes are kept; not committed.</summary>
    private static string Cache => Path.Combine("bench", "work", "accuracy");

    /// <summary>Mean square of a band for every 100 ms, sorted, in decibels of full scale.</summary>
    public double[] BandLevels(ChannelRole role, double low, double high)
    {
        if (_levels.TryGetValue((role, low, high), out var known))
            return known;
        var chain = new FilterChain([.. FilterDesigns.High(low, Rate, 2), .. high < 0.45 * Rate ? FilterDesigns.Low4(high, Rate) : []]);
        var hop = Rate / 10;
        var levels = new List<double>();
        var sum = 0.0;
        for (var i = 0; i < Frames; i++)
        {
            var x = chain.Next(Plane(role)[i]);
            sum += x * x;
            if (i % hop != hop - 1)
                continue;
            levels.Add(10 * Math.Log10((sum / hop) + 1e-20));
            sum = 0;
        }

        levels.Sort();
        return _levels[(role, low, high)] = [.. levels];
    }

    /// <summary>The level below which the band is for a tenth of the time.</summary>
    public double Quiet(ChannelRole role, double low, double high) => At(BandLevels(role, low, high), 0.1);

    /// <summary>The level above which the band is for a tenth of the time.</summary>
    public double Loud(ChannelRole role, double low, double high) => At(BandLevels(role, low, high), 0.9);

    private static double At(double[] sorted, double share) => sorted.Length == 0 ? -200 : sorted[(int)(share * (sorted.Length - 1))];
}
