using System.Buffers.Binary;
using System.Text;

namespace Athwart.House.Tests;

/// <summary>
/// The recordings that the examples of docs/ use, made anew: 24-bit WAVE, channel 1 mid and channel 2 side unless said.
/// <c>pair.wav</c> (48 kHz, 2 s), <c>pair-96.wav</c> (96 kHz, 2 s), <c>loud.wav</c> (mid near full scale: its decode would clip),
/// <c>cut-short.wav</c> (the header promises more than is there), <c>notes.txt</c> (no recording),
/// <c>line-up.wav</c> (14 s: three claps each from front, left, right and rear, the side 3 dB down),
/// <c>card/lock-001.wav</c>, <c>card/lock-002.wav</c> (2 s each), and the mono pair <c>card/boat-1.wav</c>, <c>card/boat-2.wav</c>.
/// </summary>
internal static class ExampleRecordings
{
    public static void Write(string folder)
    {
        var card = Directory.CreateDirectory(Path.Combine(folder, "card")).FullName;
        Wave(Path.Combine(folder, "pair.wav"), 48000, 2, Pair(0.25, 0.12, seed: 1));
        Wave(Path.Combine(folder, "pair-96.wav"), 96000, 2, Pair(0.25, 0.12, seed: 2));
        Wave(Path.Combine(folder, "loud.wav"), 48000, 2, Pair(0.9, 0.5, seed: 3));
        Wave(Path.Combine(card, "lock-001.wav"), 48000, 2, Pair(0.2, 0.1, seed: 4));
        Wave(Path.Combine(card, "lock-002.wav"), 48000, 2, Pair(0.3, 0.15, seed: 5));
        Wave(Path.Combine(card, "boat-1.wav"), 48000, 1, Pair(0.2, 0.1, seed: 6));
        Wave(Path.Combine(card, "boat-2.wav"), 48000, 1, (frame, _) => Pair(0.2, 0.1, seed: 6)(frame, 1));
        Wave(Path.Combine(folder, "cut-short.wav"), 48000, 2, Pair(0.25, 0.12, seed: 7));
        Wave(Path.Combine(folder, "line-up.wav"), 48000, 2, LineUp(), seconds: 14);
        using (var torn = File.OpenWrite(Path.Combine(folder, "cut-short.wav")))
            torn.SetLength(torn.Length / 2);
        File.WriteAllText(Path.Combine(folder, "notes.txt"), "Gate paddles, then the bridge bell.\n");
    }

    /// <summary>A tone and a little noise, unlike in mid and side; noise from an integer hash so that every run has the same bytes.</summary>
    private static Func<int, int, double> Pair(double mid, double side, uint seed) => (frame, channel) =>
    {
        var hash = ((uint)frame * 2u + (uint)channel + seed * 0x9E3779B9u) * 2654435761u;
        hash = (hash ^ (hash >> 15)) * 2246822519u;
        var noise = (hash ^ (hash >> 13)) / (double)uint.MaxValue - 0.5;
        return channel == 0
            ? mid * (0.9 * Math.Sin(frame * 0.0311) + 0.1 * noise)
            : side * (0.8 * Math.Sin(frame * 0.0473 + 1) + 0.2 * noise);
    };

    /// <summary>Claps as damped waves that a nearly cardioid mid and a side 3 dB softer pick up, in a little noise.</summary>
    private static Func<int, int, double> LineUp()
    {
        return (frame, channel) =>
        {
            var seconds = (frame / 48000.0) - 1.5;
            var direction = (int)Math.Floor(seconds / 3);
            var since = seconds - (3 * direction);
            var clap = (int)(since / 0.5);
            if (direction is < 0 or > 3 || clap > 2)
                return Hiss(frame, channel);
            var azimuth = direction switch { 0 => 0, 1 => 0.5, 2 => -0.5, _ => 1 } * Math.PI;
            var gain = channel == 0 ? 0.55 + (0.45 * Math.Cos(azimuth)) : 0.708 * Math.Sin(azimuth);
            var t = since - (0.5 * clap);
            var rise = 1 - Math.Exp(-t / 1e-4);
            var wave = (Math.Exp(-t / 8e-4) * Math.Cos(7000 * t)) + (0.8 * Math.Exp(-t / 3e-4) * Math.Cos(19000 * t));
            return (0.4 * gain * rise * rise * wave) + Hiss(frame, channel);
        };
    }

    private static double Hiss(int frame, int channel)
    {
        var hash = (((uint)frame * 2u) + (uint)channel + 8u) * 2654435761u;
        hash = (hash ^ (hash >> 15)) * 2246822519u;
        return 0.002 * (((hash ^ (hash >> 13)) / (double)uint.MaxValue) - 0.5);
    }

    private static void Wave(string path, int sampleRateHertz, int channels, Func<int, int, double> sample, int seconds = 2)
    {
        var frames = seconds * sampleRateHertz;
        var bytes = new byte[44 + frames * channels * 3];
        Header(bytes, sampleRateHertz, channels);
        for (var i = 0; i < frames * channels; i++)
        {
            var steps = (int)Math.Round(sample(i / channels, i % channels) * 8388607);
            var at = bytes.AsSpan(44 + i * 3, 3);
            (at[0], at[1], at[2]) = ((byte)steps, (byte)(steps >> 8), (byte)(steps >> 16));
        }

        File.WriteAllBytes(path, bytes);
    }

    private static void Header(Span<byte> bytes, int sampleRateHertz, int channels)
    {
        Encoding.ASCII.GetBytes("RIFF\0\0\0\0WAVEfmt ", bytes);
        BinaryPrimitives.WriteInt32LittleEndian(bytes[4..], bytes.Length - 8);
        BinaryPrimitives.WriteInt32LittleEndian(bytes[16..], 16);
        BinaryPrimitives.WriteInt16LittleEndian(bytes[20..], 1);
        BinaryPrimitives.WriteInt16LittleEndian(bytes[22..], (short)channels);
        BinaryPrimitives.WriteInt32LittleEndian(bytes[24..], sampleRateHertz);
        BinaryPrimitives.WriteInt32LittleEndian(bytes[28..], sampleRateHertz * channels * 3);
        BinaryPrimitives.WriteInt16LittleEndian(bytes[32..], (short)(channels * 3));
        BinaryPrimitives.WriteInt16LittleEndian(bytes[34..], 24);
        Encoding.ASCII.GetBytes("data", bytes[36..]);
        BinaryPrimitives.WriteInt32LittleEndian(bytes[40..], bytes.Length - 44);
    }
}
