using System.Xml.Linq;
using Athwart.Jobs.Explain;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Explain;

/// <summary>Every kind has a picture, drawn as the evidence of a real finding is.</summary>
public sealed class ExamplePicturesTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public static TheoryData<string> Kinds { get; } = [.. Explanations.All.Select(e => e.Kind)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void EveryKind_HasAPicture_ThatIsWellFormed_SaysWhatItShows_AndDrawsSomething(string kind)
    {
        var svg = XDocument.Parse(ExamplePictures.Draw(kind)).Root!;
        XName Name(string local) => svg.Name.Namespace + local;
        Assert.Equal(kind, svg.Element(Name("title"))!.Value.Split(',')[0]);
        Assert.Equal(Explanations.Of(kind)!.What, svg.Element(Name("desc"))!.Value);
        Assert.NotEmpty(svg.Elements(Name("text")));
        // Pictures inside are letters by chance.
        Assert.DoesNotContain(svg.Descendants().Attributes().Where(a => a.Name.LocalName is not "href"), a => a.Value.Contains("NaN", StringComparison.Ordinal));
        Assert.Contains(svg.Descendants(), e => e.Name.LocalName is "rect" or "path" or "line" or "circle" or "image");
        Assert.DoesNotContain("there are no numbers", svg.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void APicture_IsWritten_AndNotOverAnother()
    {
        var file = _folder.File("hum.svg");
        ExamplePictures.Write("hum", file, overwrite: false);
        Assert.StartsWith("<svg", File.ReadAllText(file), StringComparison.Ordinal);
        Assert.Equal(JobErrorKind.Refused, Assert.Throws<JobException>(() => ExamplePictures.Write("hum", file, overwrite: false)).Kind);
        Assert.Equal(JobErrorKind.WrongUse, Assert.Throws<JobException>(() => ExamplePictures.Write("gremlins", file, overwrite: true)).Kind);
    }

    public void Dispose() => _folder.Dispose();
}
