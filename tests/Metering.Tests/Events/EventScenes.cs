using System.Numerics;
using Athwart.Scenes;
using Athwart.Scenes.Rigs;
using Athwart.Scenes.Sources;
using MathNet.Numerics.IntegralTransforms;

namespace Athwart.Metering.Tests.Events;

/// <summary>A sound put into a scene, and where it lies in the take.</summary>
/// <param name="From">The first frame at which its power is that of the floor in some band of mid, side, left or right.</param>
/// <param name="To">The frame after the last such.</param>
/// <param name="Height">Its loudest 10 ms against the floor, decibels, in the signal where it is most; the whole band.</param>
/// <param name="Shape">What it is.</param>
internal sealed record TrueEvent(long From, long To, double Height, string Shape);

/// <summary>
/// Takes with known events: a floor of the lottery's rooms, rigs, rates and ambiences, and over it sounds of many shapes, each at a
/// height that is set. Floor and sounds are rendered apart, so the truth comes from the sounds alone.
/// </summary>
internal sealed class EventScenes
{
    public const double Seconds = 10;
    private static readonly double[] Edges = [9600, 2400, 600, 150];

    public required int Rate { get; init; }

    public required float[] Mid { get; init; }

    public required float[] Side { get; init; }

    public required IReadOnlyList<TrueEvent> Events { get; init; }

    /// <summary>The floor alone.</summary>
    public static (int Rate, float[] Mid, float[] Side) Ambience(ulong seed, double seconds)
    {
        var scene = Draw(seed, seconds) with { Sources = [] };
        var floor = SceneRenderer.Render(scene);
        return (scene.SampleRateHertz, floor.Channels[0], floor.Channels[1]);
    }

    /// <summary>The take of a seed, every event so many decibels over the floor.</summary>
    public static EventScenes Make(ulong seed, double height)
    {
        var random = new Random((int)seed);
        var (signal, places) = Shapes(random);
        var scene = Draw(seed, Seconds);
        var trajectory = new FixedPlace(new Place(0, 0, 1.5) + Place.Polar((random.NextDouble() * 150) - 75, 2 + (4 * random.NextDouble())));
        var clean = SceneRenderer.Render(scene with
        {
            Sources = [new SoundSource { Signal = signal, Trajectory = trajectory, LevelDecibels = 80 }],
            Ambience = [],
            Rig = scene.Rig with { Mid = Silent(scene.Rig.Mid), Side = Silent(scene.Rig.Side), Word = SampleWord.Floating },
        });
        var floor = SceneRenderer.Render(scene with { Sources = [], Rig = scene.Rig with { Word = SampleWord.Floating } });
        return Mix(scene.SampleRateHertz, clean.Channels, floor.Channels, places, height);
    }

    private static Scene Draw(ulong seed, double seconds) => SceneLottery.Draw(seed, seconds) with { Faults = [], SampleRateHertz = 48000 };

    private static RigChannel Silent(RigChannel channel) => channel with { EquivalentNoiseDecibels = double.NegativeInfinity };

    private static EventScenes Mix(int rate, float[][] clean, float[][] floor, List<(double From, double To, string Shape)> places, double height)
    {
        var (mid, side) = (floor[0].ToArray(), floor[1].ToArray());
        var (sounds, floors) = (Bands(clean, rate), Bands(floor, rate));
        List<TrueEvent> events = [];
        for (var i = 0; i < places.Count; i++)
        {
            // From the middle of the pause before to the middle of the one after.
            var first = i == 0 ? 0 : (int)((places[i - 1].To + places[i].From) / 2 * rate);
            var end = i == places.Count - 1 ? mid.Length : (int)((places[i].To + places[i + 1].From) / 2 * rate);
            var natural = Height(clean, floor, first, end, rate);
            var gain = Math.Pow(10, (height - natural) / 20);
            var (from, to) = Truth(sounds, floors, first, end, gain * gain);
            events.Add(new(from, to, height, places[i].Shape));
            for (var n = first; n < end; n++)
            {
                mid[n] += (float)(gain * clean[0][n]);
                side[n] += (float)(gain * clean[1][n]);
            }
        }

        return new() { Rate = rate, Mid = mid, Side = side, Events = events };
    }

    private static double Height(float[][] clean, float[][] floor, int first, int end, int rate)
    {
        var (best, window) = (double.NegativeInfinity, rate / 100);
        foreach (var (m, s) in Signals)
        {
            double sum = 0, most = 0, ground;
            for (var n = first; n < end; n++)
            {
                sum += Square(clean, m, s, n) - (n - window >= first ? Square(clean, m, s, n - window) : 0);
                most = Math.Max(most, sum);
            }

            ground = Mean(floor, m, s);
            best = Math.Max(best, 10 * Math.Log10(most / window / ground));
        }

        return best;
    }

    private static (double Mid, double Side)[] Signals => [(1, 0), (0, 1), (1, 1), (1, -1)];

    private static double Square(float[][] pair, double m, double s, int n)
    {
        var sample = (m * pair[0][n]) + (s * pair[1][n]);
        return sample * sample;
    }

    private static double Mean(float[][] pair, double m, double s)
    {
        var sum = 0.0;
        for (var n = 0; n < pair[0].Length; n++)
            sum += Square(pair, m, s, n);
        return sum / pair[0].Length;
    }

    private static (long From, long To) Truth(List<float[][]> sounds, List<float[][]> floors, int first, int end, double power)
    {
        var (from, to) = (end, first);
        foreach (var (sound, floor) in sounds.Zip(floors))
        {
            foreach (var (m, s) in Signals)
            {
                // Over 10 ms, about the frame; what hardly comes up to the floor, as a late echo may, is no part of it.
                var (powers, ground) = (Powers(sound, m, s, first, end, 240), Mean(floor, m, s) / power);
                var (clear, last) = (Array.FindIndex(powers, p => p >= 2 * ground), Array.FindLastIndex(powers, p => p >= 2 * ground));
                if (clear < 0)
                    continue;
                while (clear > 0 && powers[clear - 1] >= ground)
                    clear--;
                while (last < powers.Length - 1 && powers[last + 1] >= ground)
                    last++;
                (from, to) = (Math.Min(from, first + clear), Math.Max(to, first + last + 1));
            }
        }

        return (Math.Max(from, first), to);
    }

    private static double[] Powers(float[][] pair, double m, double s, int first, int end, int half)
    {
        var powers = new double[end - first];
        var sum = 0.0;
        for (var n = first; n < end + half; n++)
        {
            sum += (n < end ? Square(pair, m, s, n) : 0) - (n - (2 * half) >= first ? Square(pair, m, s, n - (2 * half)) : 0);
            if (n - half >= first)
                powers[n - half - first] = Math.Max(0, sum) / (2 * half);
        }

        return powers;
    }

    // Bands of two octaves by the spectrum of the whole take: no phase shift, slopes of a fourth-order Butterworth.
    private static List<float[][]> Bands(float[][] pair, int rate)
    {
        var spectra = pair.Select(Spectrum).ToArray();
        var bands = new List<float[][]>();
        for (var b = 0; b <= Edges.Length; b++)
        {
            var (high, low) = (b == 0 ? double.PositiveInfinity : Edges[b - 1], b == Edges.Length ? 20 : Edges[b]);
            bands.Add([.. spectra.Select(s => Band(s, low, high, rate, pair[0].Length))]);
        }

        return bands;
    }

    private static Complex[] Spectrum(float[] samples)
    {
        var spectrum = new Complex[(int)BitOperations.RoundUpToPowerOf2((uint)samples.Length)];
        for (var n = 0; n < samples.Length; n++)
            spectrum[n] = samples[n];
        Fourier.Forward(spectrum, FourierOptions.Default);
        return spectrum;
    }

    private static float[] Band(Complex[] spectrum, double low, double high, int rate, int length)
    {
        var band = new Complex[spectrum.Length];
        for (var k = 0; k < band.Length; k++)
        {
            var hertz = (double)Math.Min(k, band.Length - k) * rate / band.Length;
            var above = hertz == 0 ? 0 : 1 / Math.Sqrt(1 + Math.Pow(low / hertz, 8));
            band[k] = spectrum[k] * above / Math.Sqrt(1 + Math.Pow(hertz / high, 8));
        }

        Fourier.Inverse(band, FourierOptions.Default);
        return [.. band.Take(length).Select(c => (float)c.Real)];
    }

    // Strikes, bursts, rings, swells and syllables, in turn by chance; tones and noise; 0.6 s and more of nothing between.
    private static (GivenSignal Signal, List<(double From, double To, string Shape)> Places) Shapes(Random random)
    {
        var parts = new List<(double At, double End, Func<double, double> Wave)>();
        var places = new List<(double, double, string)>();
        for (var at = 0.8 + random.NextDouble(); at < Seconds - 1.5;)
        {
            var (shape, length, envelope) = Envelope(random);
            var carrier = Carrier(random, out var kind);
            var start = at;
            parts.Add((start, start + length, t => envelope(t - start) * carrier(t)));
            places.Add((at, at + length, shape + " " + kind));
            at += length + 0.7 + (0.8 * random.NextDouble());
        }

        return (new GivenSignal(t =>
        {
            foreach (var (from, to, wave) in parts)
            {
                if (t >= from && t < to)
                    return wave(t);
            }

            return 0;
        }), places);
    }

    private static (string Shape, double Length, Func<double, double> At) Envelope(Random random)
    {
        double Ratio(double low, double high) => low * Math.Pow(high / low, random.NextDouble());
        static double Soft(double x) => x <= 0 ? 0 : x >= 1 ? 1 : Math.Pow(Math.Sin(Math.PI / 2 * x), 2);
        switch (random.Next(5))
        {
            case 0:
                {
                    var decay = Ratio(0.004, 0.02);
                    return ("strike", Math.Min(1, 12 * decay), t => Soft(t / 0.001) * Math.Exp(-t / decay));
                }

            case 1:
                {
                    // Up to 60 dB in 0.7 s.
                    var decay = Ratio(0.02, 0.1);
                    return ("ring", 12 * decay, t => Soft(t / 0.002) * Math.Exp(-t / decay));
                }

            case 2:
                {
                    var length = Ratio(0.05, 1.2);
                    return ("burst", length, t => Soft(t / 0.01) * Soft((length - t) / 0.01));
                }

            case 3:
                {
                    var length = Ratio(0.15, 0.6);
                    return ("swell", length, t => Soft(t / (length / 2)) * Soft((length - t) / (length / 2)));
                }

            default:
                {
                    var length = Ratio(0.3, 1.2);
                    return ("syllables", length, t => Soft(t / 0.02) * Soft((length - t) / 0.03) * (0.55 - (0.45 * Math.Cos(2 * Math.PI * 5 * t))));
                }
        }
    }

    private static Func<double, double> Carrier(Random random, out string kind)
    {
        double Ratio(double low, double high) => low * Math.Pow(high / low, random.NextDouble());
        var tonal = random.Next(3) == 0;
        var low = Ratio(60, 4000);
        var high = Math.Min(16000, low * (tonal ? 1 : Ratio(2, 30)));
        kind = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{(tonal ? "tone" : "noise")} {low:0} to {high:0} Hz");
        var partials = Enumerable.Range(0, tonal ? 3 : 50).Select(k => (Hertz: tonal ? Math.Min(18000, low * (1 + (1.7 * k))) : Ratio(low, high), Turn: random.NextDouble())).ToArray();
        return t =>
        {
            var sum = 0.0;
            foreach (var (hertz, turn) in partials)
                sum += Math.Sin(2 * Math.PI * ((hertz * t) + turn));
            return sum / Math.Sqrt(partials.Length);
        };
    }
}
