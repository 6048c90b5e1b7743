using System.Text;

namespace Athwart.Recordings.Tests;

/// <summary>iXML in, iXML out.</summary>
public sealed class ProductionNotesTests
{
    /// <summary>The worked M/S example of the iXML specification (example 2), retyped from its values.</summary>
    private const string WorkedExample = """
        <?xml version="1.0" encoding="UTF-8"?>
        <BWFXML>
          <IXML_VERSION>1.52</IXML_VERSION><SCENE>21</SCENE><TAKE>33</TAKE><TAPE>10</TAPE><CIRCLED>TRUE</CIRCLED>
          <FILE_UID>MTIPMX17654200508051445053840001</FILE_UID>
          <SPEED>
            <MASTER_SPEED>24/1</MASTER_SPEED><CURRENT_SPEED>48/1</CURRENT_SPEED><TIMECODE_RATE>24000/1001</TIMECODE_RATE><TIMECODE_FLAG>NDF</TIMECODE_FLAG>
            <FILE_SAMPLE_RATE>48000</FILE_SAMPLE_RATE><DIGITIZER_SAMPLE_RATE>48048</DIGITIZER_SAMPLE_RATE>
            <TIMESTAMP_SAMPLES_SINCE_MIDNIGHT_HI>0</TIMESTAMP_SAMPLES_SINCE_MIDNIGHT_HI><TIMESTAMP_SAMPLES_SINCE_MIDNIGHT_LO>48048000</TIMESTAMP_SAMPLES_SINCE_MIDNIGHT_LO>
            <TIMESTAMP_SAMPLE_RATE>48000</TIMESTAMP_SAMPLE_RATE>
          </SPEED>
          <FILE_SET><TOTAL_FILES>1</TOTAL_FILES><FAMILY_UID>MTIPMX17654200508051445053840000</FAMILY_UID><FAMILY_NAME>21/33</FAMILY_NAME><FILE_SET_INDEX>A</FILE_SET_INDEX></FILE_SET>
          <TRACK_LIST><TRACK_COUNT>2</TRACK_COUNT>
            <TRACK><CHANNEL_INDEX>1</CHANNEL_INDEX><INTERLEAVE_INDEX>1</INTERLEAVE_INDEX><NAME>Mid</NAME><FUNCTION>M-MID_SIDE</FUNCTION></TRACK>
            <TRACK><CHANNEL_INDEX>2</CHANNEL_INDEX><INTERLEAVE_INDEX>2</INTERLEAVE_INDEX><NAME>Side</NAME><FUNCTION>S-MID_SIDE</FUNCTION></TRACK>
          </TRACK_LIST>
        </BWFXML>
        """;

    private static ProductionNotes Parse(string xml) => ProductionNotes.Parse(Encoding.UTF8.GetBytes(xml));

    [Fact]
    public void Ixml_WorkedMidSideExample_ReadsEveryValue()
    {
        var notes = Parse(WorkedExample);
        Assert.Equal(("1.52", "21", "33", "10", true), (notes.Version, notes.Scene, notes.Take, notes.Tape, notes.Circled));
        Assert.Equal("MTIPMX17654200508051445053840001", notes.FileUid);
        Assert.Equal(new FileSet("MTIPMX17654200508051445053840000", "21/33", 1, "A"), notes.FileSet);
        Assert.Equal(("24/1", "48/1", "24000/1001", "NDF", 48_000, 48_048), (notes.Speed!.MasterSpeed, notes.Speed.CurrentSpeed, notes.Speed.TimecodeRate, notes.Speed.TimecodeFlag, notes.Speed.FileSampleRate, notes.Speed.DigitizerSampleRate));
        // 48 048 000 samples at 48 kHz are 1001 s, 00:16:41.
        Assert.Equal((48_048_000UL, 48_000), (notes.Speed.TimestampSamplesSinceMidnight, notes.Speed.TimestampSampleRate));
        Assert.Equal(("Mid", "M-MID_SIDE"), (notes.TrackAt(0)!.Name, notes.TrackAt(0)!.Function));
        Assert.Equal(("Side", "S-MID_SIDE"), (notes.TrackAt(1)!.Name, notes.TrackAt(1)!.Function));
        Assert.Null(notes.TrackAt(2));
    }

    // The second fixture of the specification's readers: channels 6 and 4, interleaved 2 and 1, side listed first.
    [Fact]
    public void Tracks_AreFoundByInterleaveIndexAndNeverByListOrder()
    {
        var notes = Parse("<BWFXML><TRACK_LIST><TRACK><CHANNEL_INDEX>6</CHANNEL_INDEX><INTERLEAVE_INDEX>2</INTERLEAVE_INDEX><NAME>Side</NAME><FUNCTION>S-MID_SIDE </FUNCTION></TRACK><TRACK><CHANNEL_INDEX>4</CHANNEL_INDEX><INTERLEAVE_INDEX>1</INTERLEAVE_INDEX><NAME>Mid</NAME><FUNCTION>M-MID_SIDE</FUNCTION></TRACK></TRACK_LIST></BWFXML>");
        Assert.Equal(new Track(4, 1, "Mid", "M-MID_SIDE"), notes.TrackAt(0));
        Assert.Equal(new Track(6, 2, "Side", "S-MID_SIDE"), notes.TrackAt(1));
    }

    [Fact]
    public void TracksWithoutAnyInterleaveIndex_AreTakenInListOrder()
    {
        var notes = Parse("<BWFXML><TRACK_LIST><TRACK><NAME>a</NAME></TRACK><TRACK><NAME>b</NAME></TRACK></TRACK_LIST></BWFXML>");
        Assert.Equal(("a", "b", null), (notes.TrackAt(0)?.Name, notes.TrackAt(1)?.Name, notes.TrackAt(2)?.Name));
    }

    [Theory]
    [InlineData("utf-8", true)]
    [InlineData("utf-8", false)]
    [InlineData("utf-16", true)]
    [InlineData("utf-16", false)]
    [InlineData("utf-16BE", true)]
    [InlineData("utf-16BE", false)]
    [InlineData("utf-32", true)]
    [InlineData("utf-32BE", true)]
    [InlineData("iso-8859-1", false)]
    [InlineData("windows-1252", false)]
    public void EveryEncoding_IsRead(string name, bool mark)
    {
        var encoding = string.Equals(name, "windows-1252", StringComparison.Ordinal) ? CodePagesEncodingProvider.Instance.GetEncoding(name)! : Encoding.GetEncoding(name);
        var xml = $"<?xml version=\"1.0\" encoding=\"{name}\"?><BWFXML><NOTE>écluse à l’aube</NOTE></BWFXML>";
        if (string.Equals(name, "iso-8859-1", StringComparison.Ordinal))
            xml = xml.Replace('’', '\'');
        var notes = ProductionNotes.Parse([.. mark ? encoding.GetPreamble() : [], .. encoding.GetBytes(xml), 0, 0, 0, 0]);
        Assert.StartsWith("écluse à l", notes.Note, StringComparison.Ordinal);
        Assert.EndsWith("aube", notes.Note, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("<?xml version='1.0' encoding='UTF-16'?><BWFXML><NOTE>x</NOTE></BWFXML>")] // says 16 bits and has 8
    [InlineData("<?xml version='1.0' encoding='no-such-thing'?><BWFXML><NOTE>x</NOTE></BWFXML>")]
    [InlineData("<?xml version='1.0' encoding='utf-7'?><BWFXML><NOTE>x</NOTE></BWFXML>")]
    [InlineData("\n  <BWFXML><NOTE>x</NOTE></BWFXML>\n\0\0\0")]
    [InlineData("<bwfxml><note> x </note><NOTE>y</NOTE></bwfxml>")]
    [InlineData("<BWFXML xmlns='urn:something'><NOTE>x</NOTE></BWFXML>")]
    [InlineData("<BWFXML><!-- c --><NOTE><![CDATA[x]]></NOTE></BWFXML>")]
    public void WaysOfTheField_AreRead(string xml) => Assert.Equal("x", Parse(xml).Note);

    [Theory]
    [InlineData("")]
    [InlineData("no xml")]
    [InlineData("<BWFXML><NOTE></BWFXML>")]
    [InlineData("<!DOCTYPE a [<!ENTITY e 'x'>]><BWFXML><NOTE>&e;</NOTE></BWFXML>")]
    [InlineData("<!DOCTYPE a SYSTEM 'file:///etc/hostname'><BWFXML><NOTE>x</NOTE></BWFXML>")]
    [InlineData("<BWFXML><NOTE>&e;</NOTE></BWFXML>")]
    public void NoXmlOrADtd_IsAFormatException(string xml) => Assert.Throws<FormatException>(() => Parse(xml));

    [Fact]
    public void EntityFromOutside_IsNeverFetched()
    {
        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        File.WriteAllText(folder.File("secret.txt"), "secret");
        var xml = $"<!DOCTYPE a [<!ENTITY e SYSTEM 'file://{folder.File("secret.txt")}'>]><BWFXML><NOTE>&e;</NOTE></BWFXML>";
        using var file = new WaveBytes().Format().Chunk("iXML", Encoding.UTF8.GetBytes(xml)).Chunk("data", []).Open();
        Assert.Null(file.Production);
        Assert.Equal("ixml-unreadable", Assert.Single(file.Findings).Kind);
    }

    [Fact]
    public void TooDeepAndTooLong_AreRefused()
    {
        Assert.Throws<FormatException>(() => Parse(string.Concat(Enumerable.Repeat("<a>", 100_000))));
        Assert.Throws<FormatException>(() => ProductionNotes.Parse(new byte[ProductionXml.SizeLimit + 1]));
    }

    [Fact]
    public void FreshNotes_AreWrittenAndReadTheSame()
    {
        var notes = new ProductionNotes
        {
            Project = "lift bridge & lock <1>",
            Scene = "3",
            Take = "1",
            Note = "Wind « from » the west",
            Circled = true,
            TakeType = "WILD_TRACK",
            FileUid = "abc",
            UserBits = "00000000",
            Tape = "t",
            User = "free text",
            FileSet = new("F", "3/1", 2, "1"),
            Tracks = [new(1, 1, "Mid", "M-MID_SIDE"), new(null, 2, "", "S-MID_SIDE")],
            Speed = new() { FileSampleRate = 96_000, AudioBitDepth = 24, TimestampSamplesSinceMidnight = (7UL << 32) + 5, TimestampSampleRate = 96_000, TimecodeFlag = "NDF" },
            History = new("o.wav", "p.wav", "u"),
            SyncPoints = [new("RELATIVE", "MARKER_GENERIC", "splash", (1UL << 32) + 9, 4)],
        };
        var back = ProductionNotes.Parse(notes.ToBytes());
        Assert.Equal(notes.Tracks, back.Tracks);
        Assert.Equal(notes.SyncPoints, back.SyncPoints);
        Assert.Equal(notes, back with { Tracks = notes.Tracks, SyncPoints = notes.SyncPoints, RawXml = null });
    }

    [Fact]
    public void ChangedNotes_KeepWhatTheyDoNotUnderstand()
    {
        var notes = Parse("<BWFXML><NOTE>a</NOTE><LOCATION kind='x'><LOCATION_NAME>upper gate</LOCATION_NAME></LOCATION><TRACK_LIST><TRACK><INTERLEAVE_INDEX>1</INTERLEAVE_INDEX><GAIN>3</GAIN></TRACK></TRACK_LIST></BWFXML>");
        var xml = Encoding.UTF8.GetString((notes with { Note = "b", Scene = "4" }).ToBytes());
        foreach (var part in new[] { "<NOTE>b</NOTE>", "<SCENE>4</SCENE>", "<LOCATION kind=\"x\">", "<LOCATION_NAME>upper gate</LOCATION_NAME>", "<GAIN>3</GAIN>" })
            Assert.Contains(part, xml, StringComparison.Ordinal);
        Assert.DoesNotContain("GAIN", Encoding.UTF8.GetString((notes with { Tracks = [new(1, 1, "Mid", "")] }).ToBytes()), StringComparison.Ordinal);
    }
}
