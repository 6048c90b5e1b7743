using Athwart.Recordings;

namespace Athwart.Jobs.Tests.Render;

/// <summary>Raw pairs written for one test: two lock gates' worth of noise with a known answer.</summary>
internal static class TestTakes
{
    public const int Rate = 48000;

    /// <summary>Writes noise in steps of the format's word; channels are mid, side and, if asked, more.</summary>
    public static string Write(string path, SampleFormat format, int frames, double level = 0.3, int rate = Rate, int channels = 2, int seed = 1, BroadcastExtension? broadcast = null, ProductionNotes? production = null, IReadOnlyList<Marker>? markers = null)
    {
        var random = new Random(seed);
        using var writer = WaveWriter.Create(path, new()
        {
            ChannelCount = channels,
            SampleRateHertz = rate,
            Format = format,
            Broadcast = broadcast,
            Production = production,
            Markers = markers ?? [],
            Durable = false,
        });
        var scale = level * Math.ScaleB(1, format.ContainerBits - 1);
        PlanarBlock<int> steps = new(channels, frames) { Length = frames };
        PlanarBlock<double> samples = new(channels, frames) { Length = frames };
        for (var c = 0; c < channels; c++)
        {
            double smooth = 0;
            for (var n = 0; n < frames; n++)
            {
                smooth = (0.7 * smooth) + (0.3 * ((random.NextDouble() * 2) - 1));
                steps.Channel(c)[n] = (int)(smooth * scale);
                samples.Channel(c)[n] = smooth * level;
            }
        }

        if (format.IsInteger)
            writer.Write(steps);
        else
            writer.Write(samples);
        writer.Complete();
        return path;
    }

    /// <summary>All samples of a file in steps.</summary>
    public static int[][] Steps(string path)
    {
        using var file = RecordingFile.Open(path);
        var block = new PlanarBlock<int>(file.ChannelCount, (int)file.FrameCount);
        file.Read(0, block.Capacity, block);
        return [.. Enumerable.Range(0, file.ChannelCount).Select(c => block.Channel(c).ToArray())];
    }

    /// <summary>All samples of a file, full scale ±1.</summary>
    public static double[][] Samples(string path)
    {
        using var file = RecordingFile.Open(path);
        var block = new PlanarBlock<double>(file.ChannelCount, (int)file.FrameCount);
        file.Read(0, block.Capacity, block);
        return [.. Enumerable.Range(0, file.ChannelCount).Select(c => block.Channel(c).ToArray())];
    }
}
