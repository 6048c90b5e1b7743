using System.Xml;
using System.Xml.Linq;
using Athwart.Jobs.Deliver.Report;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Report;

public sealed class ReportWriterTests
{
    [Fact]
    public void SixEffects_AreWellFormedWithEveryIdOnceAndEveryAnchorAnswered()
    {
        var text = ReportWriter.Write(SampleReport.Document);
        if (Environment.GetEnvironmentVariable("ATHWART_KEEP_REPORT") is { Length: > 0 } path)
            File.WriteAllText(path, text);

        var page = Parse(text);

        var ids = page.Descendants().Attributes("id").Select(a => a.Value).ToList();
        Assert.Equal(ids.Count, ids.Distinct(StringComparer.Ordinal).Count());
        var anchors = page.Descendants().Attributes("href").Select(a => a.Value).Where(h => h.StartsWith('#')).ToList();
        Assert.True(anchors.Count >= 7);
        Assert.All(anchors, a => Assert.Contains(a[1..], ids));
    }

    private static XDocument Parse(string html)
    {
        using var reader = XmlReader.Create(new StringReader(html), new() { DtdProcessing = DtdProcessing.Ignore, XmlResolver = null });
        return XDocument.Load(reader);
    }
}
