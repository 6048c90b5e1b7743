using Athwart.Recordings;

namespace Athwart.Cli.Tests;

/// <summary>Small raw pairs for the commands to work on: two tones, the mid and half of it for the side.</summary>
internal static class RawPairs
{
    public const int Rate = 48000;

    /// <summary>Writes a 24-bit pair; the mid's steps are a triangle wave of the given peak, the side's a slower one of half.</summary>
    public static string Write(string path, double peak = 0.25, int frames = 24000, double sidePeak = 0.125, int channels = 2)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using var writer = WaveWriter.Create(path, new() { ChannelCount = channels, SampleRateHertz = Rate, Format = SampleFormat.Int24, Durable = false });
        var block = new PlanarBlock<int>(channels, frames) { Length = frames };
        for (var n = 0; n < frames; n++)
        {
            block.Channel(0)[n] = Triangle(n, 96, peak);
            if (channels > 1)
                block.Channel(1)[n] = Triangle(n, 160, sidePeak);
        }

        writer.Write(block);
        writer.Complete();
        return path;
    }

    /// <summary>All samples in steps, by channel.</summary>
    public static int[][] Steps(string path)
    {
        using var file = RecordingFile.Open(path);
        var block = new PlanarBlock<int>(file.ChannelCount, (int)file.FrameCount);
        file.Read(0, block.Capacity, block);
        return [.. Enumerable.Range(0, file.ChannelCount).Select(c => block.Channel(c).ToArray())];
    }

    /// <summary>As a recorder leaves a file when its power fails: sizes never written, the end in mid-frame.</summary>
    public static string BreakOff(string path)
    {
        var bytes = File.ReadAllBytes(path);
        var data = bytes.AsSpan().IndexOf("data"u8);
        bytes.AsSpan(4, 4).Clear();
        bytes.AsSpan(data + 4, 4).Clear();
        File.WriteAllBytes(path, bytes[..^1001]);
        return path;
    }

    private static int Triangle(int n, int period, double peak)
    {
        var phase = (double)(n % period) / period;
        return (int)(((4 * Math.Abs(phase - 0.5)) - 1) * peak * 8388607);
    }
}
