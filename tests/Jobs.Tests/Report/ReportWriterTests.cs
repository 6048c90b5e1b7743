using System.Text.RegularExpressions;
using System.Xml;
using System.Xml.Linq;
using Athwart.Jobs.Deliver.Report;
using Athwart.Quantities;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Report;

public sealed class ReportWriterTests
{
    private const string Awkward = "Gate <b>\"3\"</b> & 'O–Lock' שער הסכר \u0001]]>";

    [Fact]
    public void SixEffects_AreWellFormedWithEveryIdOnceAndEveryAnchorAnswered()
    {
        var page = Parse(ReportWriter.Write(SampleReport.Document));

        var ids = page.Descendants().Attributes("id").Select(a => a.Value).ToList();
        Assert.Equal(ids.Count, ids.Distinct(StringComparer.Ordinal).Count());
        var anchors = page.Descendants().Attributes("href").Select(a => a.Value).Where(h => h.StartsWith('#')).ToList();
        Assert.True(anchors.Count >= 7);
        Assert.All(anchors, a => Assert.Contains(ids, id => string.Equals(id, a[1..], StringComparison.Ordinal)));
        var labels = page.Descendants().Attributes("aria-labelledby").SelectMany(a => a.Value.Split(' '));
        Assert.All(labels, l => Assert.Contains(ids, id => string.Equals(id, l, StringComparison.Ordinal)));
    }

    [Fact]
    public void SixEffects_FetchNothingAndRunNothing()
    {
        var text = ReportWriter.Write(SampleReport.Document);
        var page = Parse(text);

        Assert.DoesNotContain(page.Descendants(), e => e.Name.LocalName is "script" or "link" or "iframe" or "object" or "embed");
        Assert.DoesNotContain(page.Descendants().Attributes(), a => a.Name.LocalName.StartsWith("on", StringComparison.Ordinal));
        foreach (var address in page.Descendants().Attributes().Where(a => a.Name.LocalName is "src" or "href").Select(a => a.Value))
            Assert.True(address.StartsWith("./", StringComparison.Ordinal) || address.StartsWith('#') || address.StartsWith("data:image/png;base64,", StringComparison.Ordinal), address);
        Assert.DoesNotContain("@import", text, StringComparison.Ordinal);
        Assert.All(Regex.Matches(text, @"url\([^)]*\)", RegexOptions.None, TimeSpan.FromSeconds(5)), m => Assert.Equal("url(#night)", m.Value));
    }

    [Fact]
    public void SameDocument_GivesTheSameText()
        => Assert.Equal(ReportWriter.Write(SampleReport.Document), ReportWriter.Write(SampleReport.Document));

    [Fact]
    public void AwkwardNames_ComeBackAsTheyWereAndMakeNoElements()
    {
        var effect = Bare(Awkward) with
        {
            Description = Awkward,
            AuditionFile = "stereo/a #1?.wav",
            Files = [new("Stereo", "javascript:alert(1)", "<hash>"), new("Pair", "../up/x.wav")],
            Source = new(Awkward, [Awkward], FrameRange.FromFrames(0, 48000), 48000),
            Findings = [new() { Kind = "k", Severity = FindingSeverity.Fault, Message = Awkward, Remedy = Awkward }],
        };
        var page = Parse(ReportWriter.Write(new() { Title = Awkward, Date = new(2026, 1, 2), Recordist = Awkward, Effects = [effect] }));

        var shown = Awkward.Replace('\u0001', '\ufffd');
        Assert.Equal(shown, page.Descendants().First(e => e.Name.LocalName == "title").Value);
        Assert.Equal(shown, page.Descendants().First(e => e.Name.LocalName == "h1").Value);
        Assert.DoesNotContain(page.Descendants(), e => e.Name.LocalName == "b");
        Assert.Equal("./stereo/a%20%231%3F.wav", page.Descendants().First(e => e.Name.LocalName == "audio").Attribute("src")?.Value);
        Assert.Contains(page.Descendants().Attributes("href"), a => a.Value == "./javascript%3Aalert%281%29");
    }

    [Fact]
    public void NothingMeasured_StillMakesAPage()
    {
        var page = Parse(ReportWriter.Write(new() { Title = "Bare", Date = new(2026, 1, 2), Effects = [Bare("One")] }));
        Assert.DoesNotContain(page.Descendants(), e => e.Name.LocalName is "audio" or "image");
        Assert.Contains("No findings", page.Root!.Value, StringComparison.Ordinal);
        Assert.Contains("No effects were delivered.", ReportWriter.Write(new() { Title = "None", Date = new(2026, 1, 2) }), StringComparison.Ordinal);
    }

    [Fact]
    public void Findings_AreCountedFromTheCutAndLeftOutWhereTheyDoNotTouchIt()
    {
        Finding At(string message, long from, long to) => new() { Kind = "k", Severity = FindingSeverity.Note, Message = message, Range = FrameRange.FromFrames(from, to) };
        var effect = Bare("Cut") with
        {
            Source = new("T1", ["a.wav"], FrameRange.FromFrames(96000, 192000), 96000),
            Findings = [At("before", 0, 96000), At("over the start", 48000, 144000), At("inside", 105600, 115200), At("after", 192000, 192001), At("all of it", 0, 400000)],
        };
        var found = EffectFinding.Of(effect);
        Assert.Equal([("over the start", 0.0, 0.5), ("inside", 0.1, 0.2)], found.Where(f => f.Mark is not null).Select(f => (f.Finding.Message, f.FromSeconds!.Value, f.ToSeconds!.Value)).OrderBy(f => f.Item2));
        Assert.Equal("all of it", Assert.Single(found, f => f.Mark is null).Finding.Message);
    }

    // With g the amplitude ratio: (1 + g) / |1 − g|; −3 dB gives g = 0.7079 and 15.3 dB.
    [Theory]
    [InlineData(-3, "15.3 dB louder in one loudspeaker than in the other")]
    [InlineData(0, "one loudspeaker alone")]
    [InlineData(3, "opposite polarity")]
    [InlineData(double.NegativeInfinity, "mono")]
    public void SideLevel_SaysWhatItDoes(double level, string says) => Assert.Contains(says, ReportWords.SideLevel(new(level)), StringComparison.Ordinal);

    [Theory]
    [InlineData(0.4, "0.40 s")]
    [InlineData(9.994, "9.99 s")]
    [InlineData(9.996, "10.0 s")]
    [InlineData(59.96, "1:00.0 min")]
    [InlineData(187.54, "3:07.5 min")]
    [InlineData(3723, "1:02:03 h")]
    public void Duration_IsReadable(double seconds, string text) => Assert.Equal(text, ReportWords.Duration(seconds));

    [Fact]
    public void Chromium_OpensThePageOfflineWithoutAComplaint()
    {
        var chromium = ReferenceProgram.Require("chromium");
        using var folder = new TemporaryFolder();
        var file = folder.File("report.html");
        File.WriteAllText(file, ReportWriter.Write(SampleReport.Document));
        string[] common =
        [
            "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
            "--hide-scrollbars", "--enable-logging=stderr", "--user-data-dir=" + folder.File("profile"),
        ];

        var dom = ReferenceProgram.Run(chromium, [.. common, "--dump-dom", "file://" + file]);
        var shot = ReferenceProgram.Run(chromium, [.. common, "--window-size=1280,1600", "--screenshot=" + folder.File("shot.png"), "file://" + file]);

        Assert.Equal(0, dom.ExitCode);
        Assert.Equal(6, Regex.Count(dom.Output, "<article class=\"card\"", RegexOptions.None, TimeSpan.FromSeconds(5)));
        Assert.DoesNotContain("CONSOLE", dom.Error + shot.Error, StringComparison.Ordinal);
        Assert.True(new FileInfo(folder.File("shot.png")).Length > 20000);
        Keep(file);
    }

    /// <summary>Leaves the page for a person to look at, where ATHWART_KEEP_REPORT says.</summary>
    private static void Keep(string file)
    {
        if (Environment.GetEnvironmentVariable("ATHWART_KEEP_REPORT") is { Length: > 0 } path)
            File.Copy(file, path, overwrite: true);
    }

    private static ReportEffect Bare(string name) => new() { Name = name, Length = new(48000), SampleRateHertz = 48000, Word = "24-bit", SideLevel = new(0) };

    private static XDocument Parse(string html)
    {
        using var reader = XmlReader.Create(new StringReader(html), new() { DtdProcessing = DtdProcessing.Ignore, XmlResolver = null });
        return XDocument.Load(reader);
    }
}
