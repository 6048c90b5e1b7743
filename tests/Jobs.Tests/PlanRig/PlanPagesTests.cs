using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Athwart.Jobs.Kits;
using Athwart.Jobs.PlanRig;
using Athwart.Microphones.Hearing;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.PlanRig;

public sealed partial class PlanPagesTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void Pages_AreWellFormed_NameNoOtherPlace_AndEscapeNames()
    {
        var odd = RigPlannerTests.Boat with { Title = "Gates <b>&\"'" };
        var plan = RigPlannerTests.Plan("short shotgun A + small figure-8 A @ -3", odd);
        PlanRigJob.WritePage(_folder.File("one.html"), [plan], false);
        PlanRigJob.WritePage(_folder.File("two.html"), [plan, RigPlannerTests.Plan("omni @ 0", recorder: null)], false);
        PlanRigJob.WriteSheet(_folder.File("sheet.html"), plan, false);
        ChooseRigJob.WritePage(_folder.File("choice.html"), ChooseRigJob.Run(new() { Kit = DemoKit.Kit, Outing = odd, Budget = "900 EUR" }), false);
        foreach (var file in Directory.GetFiles(_folder.Path))
        {
            var text = File.ReadAllText(file);
            var root = XDocument.Parse(Void().Replace(text.Replace("<!doctype html>", "", StringComparison.Ordinal), "$0</meta>")).Root!;
            Assert.DoesNotMatch("https?://(?!www[.]w3[.]org/2000/svg)", text);
            Assert.DoesNotContain("<script", text, StringComparison.Ordinal);
            var ids = root.Descendants().Attributes("id").Select(a => a.Value).ToList();
            Assert.Equal(ids.Count, ids.Distinct(StringComparer.Ordinal).Count());
        }

        Assert.Contains("Gates &lt;b&gt;&amp;&quot;&#39;", File.ReadAllText(_folder.File("sheet.html")), StringComparison.Ordinal);
    }

    [Fact]
    public void AnExistingPage_IsNotReplacedUnlessAsked()
    {
        var path = _folder.File("sheet.html");
        File.WriteAllText(path, "mine");
        var plan = RigPlannerTests.Plan("cardioid @ 0", recorder: null);
        Assert.Equal(JobErrorKind.Refused, Assert.Throws<JobException>(() => PlanRigJob.WriteSheet(path, plan, overwrite: false)).Kind);
        Assert.Equal("mine", File.ReadAllText(path));
        PlanRigJob.WriteSheet(path, plan, overwrite: true);
        Assert.StartsWith("<!doctype html>", File.ReadAllText(path), StringComparison.Ordinal);
    }

    public static TheoryData<string, string> Sheets => new()
    {
        { "short", "a4" }, { "short", "letter" }, { "boat", "a4" }, { "boat", "letter" }, { "longest", "a4" }, { "longest", "letter" },
    };

    // Printed by a real browser: the sheet is one page of either paper, whatever it has to say.
    [Theory]
    [MemberData(nameof(Sheets))]
    public void TheFieldSheet_PrintsOnOnePage(string sheet, string paper)
    {
        ReferenceProgram.Require("chromium");
        ReferenceProgram.Require("pdfinfo");
        var plan = sheet switch
        {
            "short" => RigPlannerTests.Plan("cardioid @ -3", new(), recorder: null, protection: null),
            "boat" => RigPlannerTests.Plan("short shotgun B + small figure-8 B @ -6"),
            _ => Longest(),
        };
        var (html, pdf) = (_folder.File("sheet.html"), _folder.File("sheet.pdf"));
        PlanRigJob.WriteSheet(html, plan, overwrite: true);
        File.WriteAllText(html, File.ReadAllText(html).Replace("@page{", $"@page{{size:{paper};", StringComparison.Ordinal));
        ReferenceProgram.Run("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--user-data-dir=" + _folder.File("profile"), "--no-pdf-header-footer", "--print-to-pdf=" + pdf, new Uri(html).AbsoluteUri);
        var info = ReferenceProgram.Run("pdfinfo", pdf).Output;
        Assert.Matches("Pages: +1\n", info);
        var height = paper == "a4" ? 841.92 : 792;
        Assert.Contains(height.ToString("0.##", CultureInfo.InvariantCulture), info, StringComparison.Ordinal);
    }

    // Every hazard, every warning, and names as long as anyone would write.
    private static RigPlan Longest()
    {
        var name = string.Join(' ', Enumerable.Repeat("very long name", 6))[..80];
        var kit = DemoKit.Kit with
        {
            Microphones = [.. DemoKit.Kit.Microphones.Select(m => m with { Name = m.Name == "small omni" ? name : m.Name == "ribbon figure-8" ? "side " + name : m.Name })],
        };
        var outing = RigPlannerTests.Boat with
        {
            Title = "Everything that can go wrong at the lock and its lift bridge, told in one long title",
            Place = "Lower pound below the lift bridge, both banks, " + name,
            Date = "2026-11-28, from five in the morning",
            QuietestDecibels = 12,
            LoudestDecibels = 145,
            HeadphonesDecibelsA = 95,
            Hazards = Enum.GetValues<SubjectHazards>().Aggregate((a, b) => a | b),
        };
        return PlanRigJob.Run(new(new() { Mid = name, Side = "side " + name, SideLevel = new(3), Recorder = "pocket recorder", Protection = "foam for a small pair" }, outing, kit));
    }

    [GeneratedRegex("<meta [^>]*>", RegexOptions.ExplicitCapture | RegexOptions.NonBacktracking)]
    private static partial Regex Void();

    public void Dispose() => _folder.Dispose();
}
