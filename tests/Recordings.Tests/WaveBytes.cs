using System.Buffers.Binary;
using System.Text;

namespace Athwart.Recordings.Tests;

/// <summary>WAVE files put together by hand, byte for byte, independently of the writer under test.</summary>
internal sealed class WaveBytes
{
    private readonly List<byte> _bytes = [];

    public WaveBytes(string id = "RIFF")
    {
        Text(id);
        U32(0);
        Text("WAVE");
    }

    public WaveBytes Text(string text)
    {
        _bytes.AddRange(Encoding.Latin1.GetBytes(text));
        return this;
    }

    public WaveBytes U16(int value)
    {
        _bytes.AddRange([(byte)value, (byte)(value >> 8)]);
        return this;
    }

    public WaveBytes U32(long value)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, (uint)value);
        _bytes.AddRange(bytes);
        return this;
    }

    public WaveBytes Raw(params ReadOnlySpan<byte> bytes)
    {
        _bytes.AddRange(bytes);
        return this;
    }

    public WaveBytes Chunk(string id, ReadOnlySpan<byte> data, long? size = null, bool pad = true)
    {
        Text(id).U32(size ?? data.Length);
        _bytes.AddRange(data);
        if (pad && data.Length % 2 != 0)
            _bytes.Add(0);
        return this;
    }

    /// <summary>A plain fmt chunk of 16 bytes.</summary>
    public WaveBytes Format(int tag = 1, int channels = 2, int rate = 48_000, int bits = 24, int? blockAlign = null) =>
        Text("fmt ").U32(16).U16(tag).U16(channels).U32(rate).U32((long)rate * channels * bits / 8).U16(blockAlign ?? channels * ((bits + 7) / 8)).U16(bits);

    /// <summary>The file with its RIFF size filled in.</summary>
    public byte[] ToArray(bool finished = true)
    {
        var bytes = _bytes.ToArray();
        if (finished)
            BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(4), (uint)(bytes.Length - 8));
        return bytes;
    }

    public RecordingFile Open() => Open(ToArray());

    public static RecordingFile Open(byte[] bytes) => RecordingFile.Open(new MemoryByteSource(bytes, "card/gate.wav"));

    /// <summary>Two 24-bit channels: frames (1, −1), (2, −2), …</summary>
    public static byte[] Frames24(int frames) => [.. Enumerable.Range(1, frames).SelectMany(i => new[] { (byte)i, (byte)(i >> 8), (byte)(i >> 16), (byte)-i, (byte)(-i >> 8), (byte)(-i >> 16) })];

    public static int[][] Steps(IRecording recording)
    {
        var block = new PlanarBlock<int>(recording.ChannelCount, (int)recording.FrameCount);
        recording.Read(0, block.Capacity, block);
        return [.. Enumerable.Range(0, recording.ChannelCount).Select(c => block.Channel(c).ToArray())];
    }

    public static double[][] Samples(IRecording recording)
    {
        var block = new PlanarBlock<double>(recording.ChannelCount, (int)recording.FrameCount);
        recording.Read(0, block.Capacity, block);
        return [.. Enumerable.Range(0, recording.ChannelCount).Select(c => block.Channel(c).ToArray())];
    }

    public static byte[] AllBytes(IRecording recording)
    {
        var bytes = new byte[recording.FrameCount * recording.ChannelCount * recording.Format.BytesPerSample];
        Assert.Equal(recording.FrameCount, recording.ReadBytes(0, (int)recording.FrameCount, bytes));
        return bytes;
    }
}
