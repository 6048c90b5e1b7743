using System.Globalization;
using System.Xml.Linq;

namespace Athwart.Recordings;

/// <summary>iXML elements to <see cref="ProductionNotes"/>; names compare without case, the first element of a name counts.</summary>
internal static class ProductionNotesReader
{
    public static ProductionNotes Read(string xml)
    {
        var root = ProductionXml.Load(xml);
        return new()
        {
            Version = Text(root, "IXML_VERSION"),
            Project = Text(root, "PROJECT"),
            Scene = Text(root, "SCENE"),
            Take = Text(root, "TAKE"),
            Tape = Text(root, "TAPE"),
            Note = Text(root, "NOTE"),
            UserBits = Text(root, "UBITS"),
            Circled = string.Equals(Text(root, "CIRCLED"), "TRUE", StringComparison.OrdinalIgnoreCase),
            TakeType = Text(root, "TAKE_TYPE"),
            FileUid = Text(root, "FILE_UID"),
            FileSet = Child(root, "FILE_SET") is { } set ? ReadFileSet(set) : null,
            Tracks = [.. Children(Child(root, "TRACK_LIST"), "TRACK").Select(ReadTrack)],
            Speed = Child(root, "SPEED") is { } speed ? ReadSpeed(speed) : null,
            History = Child(root, "HISTORY") is { } history ? new(Text(history, "ORIGINAL_FILENAME"), Text(history, "PARENT_FILENAME"), Text(history, "PARENT_UID")) : null,
            SyncPoints = [.. Children(Child(root, "SYNC_POINT_LIST"), "SYNC_POINT").Select(ReadSyncPoint)],
            User = Child(root, "USER") is { } user ? string.Concat(user.Nodes().OfType<XText>().Select(t => t.Value)).Trim() : "",
            RawXml = xml,
        };
    }

    internal static XElement? Child(XElement? parent, string name) => Children(parent, name).FirstOrDefault();

    private static IEnumerable<XElement> Children(XElement? parent, string name) =>
        parent?.Elements().Where(e => string.Equals(e.Name.LocalName, name, StringComparison.OrdinalIgnoreCase)) ?? [];

    private static FileSet ReadFileSet(XElement set) =>
        new(Text(set, "FAMILY_UID"), Text(set, "FAMILY_NAME"), Int(set, "TOTAL_FILES"), Text(set, "FILE_SET_INDEX"));

    private static Track ReadTrack(XElement track) =>
        new(Int(track, "CHANNEL_INDEX"), Int(track, "INTERLEAVE_INDEX"), Text(track, "NAME"), Text(track, "FUNCTION"));

    private static SyncPoint ReadSyncPoint(XElement point) => new(
        Text(point, "SYNC_POINT_TYPE"),
        Text(point, "SYNC_POINT_FUNCTION"),
        Text(point, "SYNC_POINT_COMMENT"),
        Wide(point, "SYNC_POINT_HIGH", "SYNC_POINT_LOW") ?? 0,
        ULong(point, "SYNC_POINT_EVENT_DURATION") ?? 0);

    private static SpeedNotes ReadSpeed(XElement speed) => new()
    {
        Note = Text(speed, "NOTE"),
        MasterSpeed = Text(speed, "MASTER_SPEED"),
        CurrentSpeed = Text(speed, "CURRENT_SPEED"),
        TimecodeRate = Text(speed, "TIMECODE_RATE"),
        TimecodeFlag = Text(speed, "TIMECODE_FLAG"),
        FileSampleRate = Int(speed, "FILE_SAMPLE_RATE"),
        AudioBitDepth = Int(speed, "AUDIO_BIT_DEPTH"),
        DigitizerSampleRate = Int(speed, "DIGITIZER_SAMPLE_RATE"),
        TimestampSamplesSinceMidnight = Wide(speed, "TIMESTAMP_SAMPLES_SINCE_MIDNIGHT_HI", "TIMESTAMP_SAMPLES_SINCE_MIDNIGHT_LO"),
        TimestampSampleRate = Int(speed, "TIMESTAMP_SAMPLE_RATE"),
    };

    private static string Text(XElement parent, string name) => Child(parent, name)?.Value.Trim() ?? "";

    private static int? Int(XElement parent, string name) =>
        int.TryParse(Text(parent, name), NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out var value) ? value : null;

    private static ulong? ULong(XElement parent, string name) =>
        ulong.TryParse(Text(parent, name), NumberStyles.None, CultureInfo.InvariantCulture, out var value) ? value : null;

    private static ulong? Wide(XElement parent, string high, string low) =>
        ULong(parent, low) is { } l && l <= uint.MaxValue ? ((ULong(parent, high) ?? 0) << 32) | l : null;
}
