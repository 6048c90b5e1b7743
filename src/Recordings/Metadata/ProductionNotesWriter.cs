using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace Athwart.Recordings;

/// <summary><see cref="ProductionNotes"/> to iXML; what the notes were read from travels on, only changed parts are replaced.</summary>
internal static class ProductionNotesWriter
{
    public static byte[] Write(ProductionNotes notes)
    {
        var root = notes.RawXml is { } xml ? ProductionXml.Load(xml) : new XElement("BWFXML");
        var before = notes.RawXml is { } read ? ProductionNotesReader.Read(read) : new ProductionNotes { Version = "" };
        Set(root, "IXML_VERSION", before.Version, notes.Version);
        Set(root, "PROJECT", before.Project, notes.Project);
        Set(root, "SCENE", before.Scene, notes.Scene);
        Set(root, "TAKE", before.Take, notes.Take);
        Set(root, "TAPE", before.Tape, notes.Tape);
        Set(root, "NOTE", before.Note, notes.Note);
        Set(root, "UBITS", before.UserBits, notes.UserBits);
        Set(root, "CIRCLED", before.Circled ? "TRUE" : "", notes.Circled ? "TRUE" : "");
        Set(root, "TAKE_TYPE", before.TakeType, notes.TakeType);
        Set(root, "FILE_UID", before.FileUid, notes.FileUid);
        Set(root, "USER", before.User, notes.User);
        if (before.FileSet != notes.FileSet)
            Replace(root, "FILE_SET", notes.FileSet is null ? null : FileSet(notes.FileSet));
        if (before.Speed != notes.Speed)
            Replace(root, "SPEED", notes.Speed is null ? null : Speed(notes.Speed));
        if (before.History != notes.History)
            Replace(root, "HISTORY", notes.History is null ? null : History(notes.History));
        if (!before.SyncPoints.SequenceEqual(notes.SyncPoints))
            Replace(root, "SYNC_POINT_LIST", notes.SyncPoints.Count == 0 ? null : SyncPoints(notes.SyncPoints));
        if (!before.Tracks.SequenceEqual(notes.Tracks))
            Replace(root, "TRACK_LIST", notes.Tracks.Count == 0 ? null : Tracks(notes.Tracks));
        return ToBytes(root);
    }

    private static void Set(XElement root, string name, string before, string now)
    {
        if (!string.Equals(before, now, StringComparison.Ordinal))
            Replace(root, name, now.Length == 0 ? null : new XElement(name, now));
    }

    private static void Replace(XElement root, string name, XElement? element)
    {
        var old = ProductionNotesReader.Child(root, name);
        if (old is not null && element is not null)
            old.ReplaceWith(element);
        else if (old is not null)
            old.Remove();
        else if (element is not null)
            root.Add(element);
    }

    private static XElement FileSet(FileSet set) => Element("FILE_SET", ("TOTAL_FILES", Number(set.TotalFiles)), ("FAMILY_UID", set.FamilyUid), ("FAMILY_NAME", set.FamilyName), ("FILE_SET_INDEX", set.Index));

    private static XElement History(History history) => Element("HISTORY", ("ORIGINAL_FILENAME", history.OriginalFilename), ("PARENT_FILENAME", history.ParentFilename), ("PARENT_UID", history.ParentUid));

    private static XElement Speed(SpeedNotes speed) => Element(
        "SPEED",
        ("NOTE", speed.Note),
        ("MASTER_SPEED", speed.MasterSpeed),
        ("CURRENT_SPEED", speed.CurrentSpeed),
        ("TIMECODE_RATE", speed.TimecodeRate),
        ("TIMECODE_FLAG", speed.TimecodeFlag),
        ("FILE_SAMPLE_RATE", Number(speed.FileSampleRate)),
        ("AUDIO_BIT_DEPTH", Number(speed.AudioBitDepth)),
        ("DIGITIZER_SAMPLE_RATE", Number(speed.DigitizerSampleRate)),
        ("TIMESTAMP_SAMPLES_SINCE_MIDNIGHT_HI", Number(speed.TimestampSamplesSinceMidnight >> 32)),
        ("TIMESTAMP_SAMPLES_SINCE_MIDNIGHT_LO", Number(speed.TimestampSamplesSinceMidnight & uint.MaxValue)),
        ("TIMESTAMP_SAMPLE_RATE", Number(speed.TimestampSampleRate)));

    private static XElement SyncPoints(IReadOnlyList<SyncPoint> points) => new(
        "SYNC_POINT_LIST",
        new XElement("SYNC_POINT_COUNT", points.Count),
        points.Select(p => Element(
            "SYNC_POINT",
            ("SYNC_POINT_TYPE", p.Type),
            ("SYNC_POINT_FUNCTION", p.Function),
            ("SYNC_POINT_COMMENT", p.Comment),
            ("SYNC_POINT_LOW", Number<ulong>(p.Position & uint.MaxValue)),
            ("SYNC_POINT_HIGH", Number<ulong>(p.Position >> 32)),
            ("SYNC_POINT_EVENT_DURATION", Number<ulong>(p.Duration)))));

    private static XElement Tracks(IReadOnlyList<Track> tracks) => new(
        "TRACK_LIST",
        new XElement("TRACK_COUNT", tracks.Count),
        tracks.Select(t => Element("TRACK", ("CHANNEL_INDEX", Number(t.ChannelIndex)), ("INTERLEAVE_INDEX", Number(t.InterleaveIndex)), ("NAME", t.Name), ("FUNCTION", t.Function))));

    private static XElement Element(string name, params ReadOnlySpan<(string Name, string Text)> children)
    {
        var element = new XElement(name);
        foreach (var (child, text) in children)
        {
            if (text.Length > 0)
                element.Add(new XElement(child, text));
        }

        return element;
    }

    private static string Number<T>(T? value)
        where T : struct, IFormattable => value is { } number ? ProductionXml.Text(number) : "";

    private static byte[] ToBytes(XElement root)
    {
        var settings = new XmlWriterSettings { Encoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), Indent = true, NewLineChars = "\n", CheckCharacters = false };
        using var stream = new MemoryStream();
        using (var writer = XmlWriter.Create(stream, settings))
            root.Save(writer);
        return stream.ToArray();
    }
}
