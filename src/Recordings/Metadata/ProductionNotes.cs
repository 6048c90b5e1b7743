namespace Athwart.Recordings;

/// <summary>The `iXML` chunk: what was recorded, in which scene and take, on which track. Every part may be absent.</summary>
/// <remarks>Source: the iXML specification, versions 1.x to 3.0 (root BWFXML).</remarks>
public sealed record ProductionNotes
{
    /// <summary>IXML_VERSION.</summary>
    public string Version { get; init; } = "2.10";

    /// <summary>PROJECT; empty when absent, as with every text here.</summary>
    public string Project { get; init; } = "";

    /// <summary>SCENE.</summary>
    public string Scene { get; init; } = "";

    /// <summary>TAKE.</summary>
    public string Take { get; init; } = "";

    /// <summary>TAPE, the sound roll.</summary>
    public string Tape { get; init; } = "";

    /// <summary>NOTE.</summary>
    public string Note { get; init; } = "";

    /// <summary>UBITS, eight hexadecimal digits.</summary>
    public string UserBits { get; init; } = "";

    /// <summary>CIRCLED; absent is false.</summary>
    public bool Circled { get; init; }

    /// <summary>TAKE_TYPE, a comma list such as WILD_TRACK.</summary>
    public string TakeType { get; init; } = "";

    /// <summary>FILE_UID.</summary>
    public string FileUid { get; init; } = "";

    /// <summary>FILE_SET: which files belong together.</summary>
    public FileSet? FileSet { get; init; }

    /// <summary>TRACK_LIST in the order of the file; see <see cref="TrackAt"/> for the track of a channel.</summary>
    public IReadOnlyList<Track> Tracks { get; init; } = [];

    /// <summary>SPEED.</summary>
    public SpeedNotes? Speed { get; init; }

    /// <summary>HISTORY.</summary>
    public History? History { get; init; }

    /// <summary>SYNC_POINT_LIST.</summary>
    public IReadOnlyList<SyncPoint> SyncPoints { get; init; } = [];

    /// <summary>USER: its text, without sub-elements.</summary>
    public string User { get; init; } = "";

    /// <summary>The XML it was read from; written again with the changed parts replaced, so that elements not known here travel on. Null for notes made here.</summary>
    public string? RawXml { get; init; }

    /// <summary>The track of a channel of the file: by INTERLEAVE_INDEX; where no track has one, by its place in the list.</summary>
    /// <param name="channel">Channel of the file, from 0.</param>
    /// <returns>The track, or null.</returns>
    public Track? TrackAt(int channel)
    {
        foreach (var track in Tracks)
        {
            if (track.InterleaveIndex == channel + 1)
                return track;
        }

        return channel < Tracks.Count && Tracks.All(t => t.InterleaveIndex is null) ? Tracks[channel] : null;
    }

    /// <summary>Reads the data of a chunk in any XML encoding. No DTD is accepted and nothing outside is ever fetched.</summary>
    /// <exception cref="FormatException">It is no well-formed XML, has a DTD, is nested deeper than 64 elements or longer than 2 MiB.</exception>
    public static ProductionNotes Parse(ReadOnlySpan<byte> data) => ProductionNotesReader.Read(ProductionXml.Decode(data));

    /// <summary>The data of a chunk: UTF-8 XML, absent parts left out.</summary>
    public byte[] ToBytes() => ProductionNotesWriter.Write(this);
}

/// <summary>FILE_SET: files of one recording share the family.</summary>
/// <param name="FamilyUid">FAMILY_UID, the same in all files of one recording.</param>
/// <param name="FamilyName">FAMILY_NAME; not unique.</param>
/// <param name="TotalFiles">TOTAL_FILES; null when absent.</param>
/// <param name="Index">FILE_SET_INDEX: 1…n for mono files, A, B… for files of several channels.</param>
public sealed record FileSet(string FamilyUid, string FamilyName, int? TotalFiles, string Index);

/// <summary>TRACK: one channel.</summary>
/// <param name="ChannelIndex">CHANNEL_INDEX, the recorder's channel, from 1; null when absent.</param>
/// <param name="InterleaveIndex">INTERLEAVE_INDEX, the place in this file, from 1; null when absent.</param>
/// <param name="Name">NAME.</param>
/// <param name="Function">FUNCTION, such as M-MID_SIDE, with blanks trimmed.</param>
public sealed record Track(int? ChannelIndex, int? InterleaveIndex, string Name, string Function);

/// <summary>HISTORY: where the file came from.</summary>
/// <param name="OriginalFilename">ORIGINAL_FILENAME.</param>
/// <param name="ParentFilename">PARENT_FILENAME.</param>
/// <param name="ParentUid">PARENT_UID.</param>
public sealed record History(string OriginalFilename, string ParentFilename, string ParentUid);

/// <summary>SYNC_POINT: a place of interest.</summary>
/// <param name="Type">RELATIVE or ABSOLUTE.</param>
/// <param name="Function">SYNC_POINT_FUNCTION, such as MARKER_GENERIC.</param>
/// <param name="Comment">SYNC_POINT_COMMENT.</param>
/// <param name="Position">SYNC_POINT_HIGH and LOW in samples.</param>
/// <param name="Duration">SYNC_POINT_EVENT_DURATION in samples; 0 for a point.</param>
public sealed record SyncPoint(string Type, string Function, string Comment, ulong Position, ulong Duration);

/// <summary>SPEED: rates and the time stamp.</summary>
public sealed record SpeedNotes
{
    /// <summary>NOTE.</summary>
    public string Note { get; init; } = "";

    /// <summary>MASTER_SPEED, n/d.</summary>
    public string MasterSpeed { get; init; } = "";

    /// <summary>CURRENT_SPEED, n/d.</summary>
    public string CurrentSpeed { get; init; } = "";

    /// <summary>TIMECODE_RATE, n/d.</summary>
    public string TimecodeRate { get; init; } = "";

    /// <summary>TIMECODE_FLAG: DF or NDF.</summary>
    public string TimecodeFlag { get; init; } = "";

    /// <summary>FILE_SAMPLE_RATE in hertz.</summary>
    public int? FileSampleRate { get; init; }

    /// <summary>AUDIO_BIT_DEPTH.</summary>
    public int? AudioBitDepth { get; init; }

    /// <summary>DIGITIZER_SAMPLE_RATE in hertz.</summary>
    public int? DigitizerSampleRate { get; init; }

    /// <summary>TIMESTAMP_SAMPLES_SINCE_MIDNIGHT, HI and LO together.</summary>
    public ulong? TimestampSamplesSinceMidnight { get; init; }

    /// <summary>TIMESTAMP_SAMPLE_RATE in hertz.</summary>
    public int? TimestampSampleRate { get; init; }
}
