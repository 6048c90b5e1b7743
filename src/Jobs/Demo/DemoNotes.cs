using System.Globalization;
using Athwart.Recordings;

namespace Athwart.Jobs.Demo;

/// <summary>What the recorder of the demo writes around the samples: bext, iXML, markers.</summary>
internal static class DemoNotes
{
    public const string Day = "2026-05-14";
    private const string Originator = "Athwart demo";

    /// <summary>Everything but the tracks for one file of a take.</summary>
    /// <param name="plan">The take.</param>
    /// <param name="rate">Frames per second.</param>
    /// <param name="firstFrame">First frame of the take in this file.</param>
    /// <param name="tracks">What the channels are.</param>
    /// <param name="fileSet">Which files belong together; null for a take in one file.</param>
    /// <param name="markers">Markers of this file.</param>
    public static WaveWriterOptions Options(DemoPlan plan, int rate, int firstFrame, IReadOnlyList<Track> tracks, FileSet? fileSet, IReadOnlyList<Marker> markers)
    {
        var isFloat = string.Equals(plan.Word, "f32", StringComparison.Ordinal);
        return new()
        {
            ChannelCount = tracks.Count,
            SampleRateHertz = rate,
            Format = isFloat ? SampleFormat.Float32 : SampleFormat.Int24,
            Broadcast = Broadcast(plan, rate, firstFrame, tracks.Count, isFloat ? 32 : 24),
            Production = Production(plan, rate, firstFrame, tracks, fileSet),
            Info = [new("ISFT", Originator), new("ICRD", Day)],
            Markers = markers,
            Extra = plan.Number == 3 ? [Carried()] : [],
            Overwrite = true,

            // The card can be made again; waiting for the disk eleven times would be the slowest part of it.
            Durable = false,
        };
    }

    /// <summary>Frames since midnight of a frame of the take.</summary>
    public static ulong TimeReference(DemoPlan plan, int rate, int frame) => (ulong)(((long)plan.Time.TotalSeconds * rate) + frame);

    private static BroadcastExtension Broadcast(DemoPlan plan, int rate, int firstFrame, int channels, int bits) => new()
    {
        Description = $"{plan.Title}. Canal lock and lift bridge, mid/side, side positive to the left.",
        Originator = Originator,
        OriginatorReference = string.Create(CultureInfo.InvariantCulture, $"ATHWARTDEMO{plan.Number:00}"),
        OriginationDate = Day,
        OriginationTime = (plan.Time + TimeSpan.FromSeconds(firstFrame / rate)).ToString("hh\\:mm\\:ss", CultureInfo.InvariantCulture),
        TimeReference = TimeReference(plan, rate, firstFrame),
        Version = 1,
        CodingHistory = string.Create(CultureInfo.InvariantCulture, $"A=PCM,F={rate},W={bits},M={(channels == 1 ? "mono" : "dual-mono")},T=MS raw\r\n"),
    };

    private static ProductionNotes Production(DemoPlan plan, int rate, int firstFrame, IReadOnlyList<Track> tracks, FileSet? fileSet) => new()
    {
        Project = "Canal lock",
        Scene = plan.Scene,
        Take = plan.Number.ToString(CultureInfo.InvariantCulture),
        Tape = "260514",
        Note = plan.Note,
        Circled = plan.Number is 3 or 5,
        FileUid = Uid(plan, fileSet?.Index ?? "0"),
        FileSet = fileSet,
        Tracks = tracks,
        Speed = new()
        {
            FileSampleRate = rate,
            AudioBitDepth = string.Equals(plan.Word, "f32", StringComparison.Ordinal) ? 32 : 24,
            DigitizerSampleRate = rate,
            TimestampSamplesSinceMidnight = TimeReference(plan, rate, firstFrame),
            TimestampSampleRate = rate,
        },
    };

    /// <summary>The file set of a take in two files.</summary>
    public static FileSet Family(DemoPlan plan, string index) => new(Uid(plan, "F"), plan.Name, 2, index);

    private static string Uid(DemoPlan plan, string index) => string.Create(CultureInfo.InvariantCulture, $"ATHWARTDEMO20260514T{plan.Number:00}N{index}");

    /// <summary>A chunk that nobody else knows, odd in length; it has to travel with the raw pair.</summary>
    private static RawChunk Carried() => new("rigx", System.Text.Encoding.ASCII.GetBytes("height 1.60 m; spacing 0.02 m; facing E"));
}
