using System.Buffers.Binary;
using System.Text;

namespace Athwart.Bench;

/// <summary>
/// Makes two-channel 24-bit WAVE files that look like effects recorded with a mid-side rig: a noise bed near −50 dBFS and, about every
/// second, a burst that decays, near or far, left or right. The same seed gives the same bytes.
/// </summary>
internal static class InputMaker
{
    /// <summary>Does nothing when a file of the right size is there.</summary>
    public static void Make(string path, int seconds, int sampleRateHertz, uint seed)
    {
        long frames = (long)seconds * sampleRateHertz;
        if (new FileInfo(path) is { Exists: true } there && there.Length == 44 + frames * 6)
            return;
        using var file = new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.None, 1 << 20);
        file.Write(Header(frames * 6, sampleRateHertz));
        var sound = new Bursts(sampleRateHertz, seed);
        var block = new byte[6 * 65536];
        for (long done = 0; done < frames; done += 65536)
        {
            var count = (int)Math.Min(65536, frames - done);
            for (var i = 0; i < count; i++)
                sound.Next(block.AsSpan(i * 6, 6));
            file.Write(block.AsSpan(0, count * 6));
        }
    }

    /// <summary>Writes a take that is silence, and takes no room on the disk, but for sound from some seconds on.</summary>
    public static void MakeSparse(string path, int seconds, int sampleRateHertz, IEnumerable<(int FromSecond, int Seconds)> sounds, uint seed)
    {
        long frames = (long)seconds * sampleRateHertz;
        using var file = new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.None, 1 << 20);
        file.Write(Header(frames * 6, sampleRateHertz));
        file.SetLength(44 + (frames * 6));
        var sound = new Bursts(sampleRateHertz, seed);
        var block = new byte[6 * sampleRateHertz];
        foreach (var (from, count) in sounds)
        {
            file.Position = 44 + ((long)from * block.Length);
            for (var second = 0; second < count; second++)
            {
                for (var i = 0; i < sampleRateHertz; i++)
                    sound.Next(block.AsSpan(i * 6, 6));
                file.Write(block);
            }
        }
    }

    private static byte[] Header(long dataBytes, int sampleRateHertz)
    {
        var header = new byte[44];
        Encoding.ASCII.GetBytes("RIFF\0\0\0\0WAVEfmt ", header);
        BinaryPrimitives.WriteUInt32LittleEndian(header.AsSpan(4), (uint)(dataBytes + 36));
        BinaryPrimitives.WriteInt32LittleEndian(header.AsSpan(16), 16);
        BinaryPrimitives.WriteInt16LittleEndian(header.AsSpan(20), 1);
        BinaryPrimitives.WriteInt16LittleEndian(header.AsSpan(22), 2);
        BinaryPrimitives.WriteInt32LittleEndian(header.AsSpan(24), sampleRateHertz);
        BinaryPrimitives.WriteInt32LittleEndian(header.AsSpan(28), sampleRateHertz * 6);
        BinaryPrimitives.WriteInt16LittleEndian(header.AsSpan(32), 6);
        BinaryPrimitives.WriteInt16LittleEndian(header.AsSpan(34), 24);
        Encoding.ASCII.GetBytes("data", header.AsSpan(36));
        BinaryPrimitives.WriteUInt32LittleEndian(header.AsSpan(40), (uint)dataBytes);
        return header;
    }

    /// <summary>A noise bed and decaying bursts; mid and side stay so low that a decode at +1.58 dB cannot clip.</summary>
    private sealed class Bursts(int sampleRateHertz, uint seed)
    {
        private readonly double _decay = 1 - 8.0 / sampleRateHertz;
        private uint _state = seed * 2654435761u + 1;
        private double _level;
        private double _pan;
        private double _smoothMid;
        private double _smoothSide;

        public void Next(Span<byte> frame)
        {
            if (Noise() > 1 - 2.0 / sampleRateHertz)
                (_level, _pan) = (0.1 + 0.35 * Math.Abs(Noise()), Noise());
            _level *= _decay;
            var burst = _level * Noise();
            _smoothMid += 0.3 * (burst + 0.005 * Noise() - _smoothMid);
            _smoothSide += 0.3 * (burst * _pan * 0.7 + 0.004 * Noise() - _smoothSide);
            Put(frame, _smoothMid);
            Put(frame[3..], _smoothSide);
        }

        /// <summary>White, −1 to 1, from a xorshift generator.</summary>
        private double Noise()
        {
            _state ^= _state << 13;
            _state ^= _state >> 17;
            _state ^= _state << 5;
            return _state / 2147483648.0 - 1;
        }

        private static void Put(Span<byte> word, double sample)
        {
            var steps = (int)(sample * 8388607);
            (word[0], word[1], word[2]) = ((byte)steps, (byte)(steps >> 8), (byte)(steps >> 16));
        }
    }
}
