using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Demo;

/// <summary>Makes one take and lays it on the card.</summary>
internal sealed class DemoTakeWriter(string folder, string below, DemoPlan plan)
{
    /// <summary>The side level at which the recorder of the demo decodes, −3 dB, as an amplitude ratio.</summary>
    public const double RecorderSideGain = 0.70794578438413791;

    private const int SplitAt = 1_003_527;
    private const int PowerLostAt = 398_561;
    private readonly List<DemoFile> _files = [];

    /// <summary>Makes it.</summary>
    public (DemoTake Take, IReadOnlyList<DemoFile> Files) Write(CancellationToken cancellation)
    {
        var scene = plan.Build((ulong)plan.Number);
        cancellation.ThrowIfCancellationRequested();
        var frames = scene.Stage.Length;
        ChannelRole[] roles = plan.Layout switch
        {
            DemoLayout.Split => WriteSplit(scene),
            DemoLayout.MonoPair => WriteMonoPair(scene),
            DemoLayout.SwappedPair => WriteSwapped(scene),
            DemoLayout.FourChannels => WriteFour(scene),
            DemoLayout.PowerFailure => WriteUnfinished(scene, ref frames),
            _ => WritePair(scene),
        };
        var take = new DemoTake(plan.Name, plan.Title, scene.Stage.Rate, plan.Word, new FrameCount(frames), DemoNotes.TimeReference(plan, scene.Stage.Rate, 0),
            roles, [.. _files.Select(f => f.Path)], scene.Events, scene.Faults);
        return (take, _files);
    }

    private ChannelRole[] WritePair(DemoScene scene)
    {
        WriteFile(".WAV", scene, 0, scene.Stage.Length, [Mid(1), Side(2)], null, "Mid and side in one file.", scene.Stage.Mid, scene.Stage.Side);
        return [ChannelRole.Mid, ChannelRole.Side];
    }

    /// <summary>The cables were swapped: the side came into input 1. The names say nothing; the functions know.</summary>
    private ChannelRole[] WriteSwapped(DemoScene scene)
    {
        Track[] tracks = [new(2, 2, "Ch 2", "M-MID_SIDE"), new(1, 1, "Ch 1", "S-MID_SIDE")];
        WriteFile(".WAV", scene, 0, scene.Stage.Length, tracks, null, "Side in channel 1, mid in channel 2.", scene.Stage.Side, scene.Stage.Mid);
        scene.Plant("swapped-roles", null, null, 0, "", "The side is in channel 1 and the mid in channel 2; only the track functions say so.");
        return [ChannelRole.Side, ChannelRole.Mid];
    }

    private ChannelRole[] WriteSplit(DemoScene scene)
    {
        var (mid, side) = (scene.Stage.Mid, scene.Stage.Side);
        WriteFile("_001.WAV", scene, 0, SplitAt, [Mid(1), Side(2)], DemoNotes.Family(plan, "A"), "First part of a split take.", mid, side);
        WriteFile("_002.WAV", scene, SplitAt, scene.Stage.Length, [Mid(1), Side(2)], DemoNotes.Family(plan, "B"), "Second part, continuing to the sample.", mid, side);
        return [ChannelRole.Mid, ChannelRole.Side];
    }

    private ChannelRole[] WriteMonoPair(DemoScene scene)
    {
        WriteFile("_Tr1.WAV", scene, 0, scene.Stage.Length, [Mid(1)], DemoNotes.Family(plan, "1"), "The mid of a mono pair.", scene.Stage.Mid);
        WriteFile("_Tr2.WAV", scene, 0, scene.Stage.Length, [Side(2, 1)], DemoNotes.Family(plan, "2"), "The side of a mono pair.", scene.Stage.Side);
        return [ChannelRole.Mid, ChannelRole.Side];
    }

    /// <summary>The recorder decodes from the words it stores, so left and right follow from mid and side to the bit.</summary>
    private ChannelRole[] WriteFour(DemoScene scene)
    {
        var length = scene.Stage.Length;
        var (left, right) = (new double[length], new double[length]);
        for (var i = 0; i < length; i++)
        {
            var mid = Steps(scene.Stage.Mid[i]);
            var side = (int)Math.Round(RecorderSideGain * Steps(scene.Stage.Side[i]));
            (left[i], right[i]) = ((mid + side) / 8388608.0, (mid - side) / 8388608.0);
        }

        Track[] tracks = [Mid(1), Side(2), new(3, 3, "Left", "LEFT"), new(4, 4, "Right", "RIGHT")];
        WriteFile(".WAV", scene, 0, length, tracks, null, "Mid, side and the recorder's own left and right at side level -3 dB.", scene.Stage.Mid, scene.Stage.Side, left, right);
        return [ChannelRole.Mid, ChannelRole.Side, ChannelRole.Left, ChannelRole.Right];
    }

    private ChannelRole[] WriteUnfinished(DemoScene scene, ref int frames)
    {
        var path = WriteFile(".WAV", scene, 0, scene.Stage.Length, [Mid(1), Side(2)], null, "Header never finished, ends in the middle of a frame.", scene.Stage.Mid, scene.Stage.Side);
        PowerFailure.Strike(path, PowerLostAt, 6, 4);
        frames = PowerLostAt;
        _files[^1] = _files[^1] with { Bytes = new FileInfo(path).Length };
        scene.Plant("header-not-finished", null, null, 4, "bytes of half a frame", "The power failed: RIFF and data sizes are 0 and the file ends in mid-frame.");
        for (var i = scene.Events.Count - 1; i >= 0; i--)
        {
            // Markers are written last and never were.
            scene.Events[i] = scene.Events[i] with { Marked = false, Range = Within(scene.Events[i].Range, frames) };
        }

        return [ChannelRole.Mid, ChannelRole.Side];
    }

    private static FrameRange Within(FrameRange range, int frames) => FrameRange.FromFrames(Math.Min(range.From.Value, frames), Math.Min(range.To.Value, frames));

    private string WriteFile(string ending, DemoScene scene, int from, int to, Track[] tracks, FileSet? fileSet, string description, params double[][] channels)
    {
        var name = plan.Name + ending;
        var path = Path.Combine(folder, below, name);
        using (var writer = WaveWriter.Create(path, DemoNotes.Options(plan, scene.Stage.Rate, from, tracks, fileSet, Markers(scene, from, to))))
        {
            if (string.Equals(plan.Word, "f32", StringComparison.Ordinal))
                WriteFloats(writer, channels, from, to);
            else
                WriteSteps(writer, channels, from, to);
            writer.Complete();
        }

        _files.Add(new(below + "/" + name, plan.Name, new FileInfo(path).Length, description));
        return path;
    }

    /// <summary>Markers that begin in a part, in the part's own frames; a part is marked as far as it goes.</summary>
    private static List<Marker> Markers(DemoScene scene, int from, int to) =>
    [
        .. scene.Events.Where(e => e.Marked && e.Range.From.Value >= from && e.Range.From.Value < to)
            .Select(e => new Marker(e.Range.From.Value - from, Math.Min(e.Range.To.Value, to) - e.Range.From.Value, e.Label, "")),
    ];

    private static void WriteSteps(WaveWriter writer, double[][] channels, int from, int to)
    {
        var block = new PlanarBlock<int>(channels.Length, 16384);
        for (var start = from; start < to; start += block.Length)
        {
            block.Length = Math.Min(block.Capacity, to - start);
            for (var c = 0; c < channels.Length; c++)
            {
                var target = block.Channel(c);
                for (var i = 0; i < target.Length; i++)
                    target[i] = Steps(channels[c][start + i]);
            }

            writer.Write(block);
        }
    }

    private static void WriteFloats(WaveWriter writer, double[][] channels, int from, int to)
    {
        var block = new PlanarBlock<double>(channels.Length, 16384);
        for (var start = from; start < to; start += block.Length)
        {
            block.Length = Math.Min(block.Capacity, to - start);
            for (var c = 0; c < channels.Length; c++)
                channels[c].AsSpan(start, block.Length).CopyTo(block.Channel(c));
            writer.Write(block);
        }
    }

    /// <summary>The 24-bit word a converter gives: nearest step, stopped at full scale. The microphones' noise does the work of dither.</summary>
    private static int Steps(double sample) => (int)Math.Clamp(Math.Round(sample * 8388608), -8388608, 8388607);

    private static Track Mid(int channel) => new(channel, channel, "Mid", "M-MID_SIDE");

    private static Track Side(int channel, int? interleave = null) => new(channel, interleave ?? channel, "Side", "S-MID_SIDE");
}
