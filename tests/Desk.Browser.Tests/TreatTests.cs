using System.Text.Json;
using Athwart.Catalogue;
using Athwart.Jobs.Shape;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Athwart.Desk.Browser.Tests;

/// <summary>Treating a take by hand: steps, numbers, order, undo, keeping, and what is heard of it; two windows on one treatment.</summary>
[Collection(nameof(Sound.SoundDesk))]
public sealed class TreatTests(Sound.SoundDesk desk)
{
    // Strongest of the bins around 1 kHz, left and right, in the ears; the window is the analyser's own (Blackman).
    private const string ReadEars = """
        async () => {
            const { player } = document.querySelector('.treated').treatedPanel;
            const split = new ChannelSplitterNode(player.context, { numberOfOutputs: 2 });
            player.node.connect(split, 0);
            const ears = [0, 1].map(channel => {
                const ear = new AnalyserNode(player.context, { fftSize: 8192, smoothingTimeConstant: 0 });
                split.connect(ear, channel);
                return ear;
            });
            await new Promise(done => setTimeout(done, 600));
            return JSON.stringify(ears.map(ear => {
                const bins = new Float32Array(ear.frequencyBinCount);
                ear.getFloatFrequencyData(bins);
                return Math.max(-200, ...[-2, -1, 0, 1, 2].map(d => bins[Math.round(1000 * 8192 / player.context.sampleRate) + d]));
            }));
        }
        """;

    [Fact]
    public async Task Steps_AreAdded_Changed_Moved_Undone_AndKept()
    {
        var page = await OpenAsync(desk.Tones);
        await AddAsync(page, "trim");
        await AddAsync(page, "mono-guard");
        await AddAsync(page, "low-cut");
        await Expect(page.Locator(".step h3")).ToHaveTextAsync(["1 Trim", "2 Low cut", "3 Mono guard"]);
        await Expect(page.Locator(".step .response svg")).ToHaveCountAsync(2);
        await Expect(page.Locator(".view table tbody tr")).ToHaveCountAsync(4);

        await page.GetByRole(AriaRole.Textbox, new() { Name = "Cutoff" }).FillAsync("90");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.Locator(".view table")).ToContainTextAsync("cutoff 90 Hz");
        await page.GetByRole(AriaRole.Textbox, new() { Name = "Cutoff" }).FillAsync("5");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.Locator(".problem").First).ToContainTextAsync("10");
        await page.GetByRole(AriaRole.Button, new() { Name = "Earlier with Low cut" }).ClickAsync();
        await Expect(page.Locator(".step h3")).ToHaveTextAsync(["1 Low cut", "2 Trim", "3 Mono guard"]);
        // Nothing may follow the guard: the page says so and leaves the steps as they are.
        await page.GetByRole(AriaRole.Button, new() { Name = "Earlier with Mono guard" }).ClickAsync();
        await Expect(page.Locator(".problem").First).ToContainTextAsync("guard");
        await page.GetByRole(AriaRole.Button, new() { Name = "Remove Trim" }).ClickAsync();
        await Expect(page.Locator(".step")).ToHaveCountAsync(2);
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await Expect(page.Locator(".step")).ToHaveCountAsync(3);
        await page.GetByRole(AriaRole.Button, new() { Name = "Redo", Exact = true }).ClickAsync();
        await Expect(page.Locator(".step")).ToHaveCountAsync(2);

        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Towpath");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep under this name" }).ClickAsync();
        await Expect(page.Locator("[data-key=g] option", new() { HasText = "Towpath, kept" })).ToHaveCountAsync(1);
        Assert.Equal(["low-cut", "mono-guard"], TreatmentsJob.Show(desk.Library, "Towpath").Steps.Select(s => s.Kind.Name), StringComparer.Ordinal);
        await page.Context.CloseAsync();
    }

    // Nothing in the mid, 1 kHz in the side: a trim of the side by −12 dB is heard as −12 dB, and equally loud as none.
    [Fact]
    public async Task TheTreatedTake_IsHeardAgainstTheRecordedOne_ByItself_AndEquallyLoud()
    {
        Set(desk.SideTone, "side", TreatmentStep.Of(new Signals.Shaping.Trim(Signals.Shaping.PairRoles.Side, -12)));
        var page = await OpenAsync(desk.SideTone);
        await Sound.SoundDesk.UntilAsync(page, "document.querySelector('.treated').dataset.ready?.length === 16");
        await page.GetByLabel("equally loud").UncheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Play" }).ClickAsync();
        await Sound.SoundDesk.UntilAsync(page, "document.querySelector('.treated').treatedPanel.player.place > 200000");
        var treated = await EarsAsync(page);
        await page.GetByLabel("as recorded").CheckAsync();
        var recorded = await EarsAsync(page);
        Assert.InRange(recorded[0], -60, 0);
        Assert.Equal(-12, treated[0] - recorded[0], 0.2);
        Assert.Equal(-12, treated[1] - recorded[1], 0.2);

        await page.GetByLabel("equally loud").CheckAsync();
        await Sound.SoundDesk.UntilAsync(page, "document.querySelector('.treated').treatedPanel.player.powers?.treated?.side > 0");
        await page.WaitForTimeoutAsync(200);
        Assert.Equal(-12, (await EarsAsync(page))[0] - recorded[0], 0.2);
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task TwoWindows_ShowTheSame_AndTheSlowerOneIsToldInsteadOfOverwriting()
    {
        var (one, two) = (await OpenAsync(desk.Noise), await OpenAsync(desk.Noise));
        await AddAsync(one, "swap");
        await Expect(two.Locator(".step")).ToHaveCountAsync(1);
        await AddAsync(two, "invert");
        await Expect(one.Locator(".step")).ToHaveCountAsync(2);
        // A command changes it without telling the desk: what the window holds is old, and is not written over what is new.
        Set(desk.Noise, "noise", TreatmentStep.Of(new Signals.Shaping.Swap()));
        await one.GetByRole(AriaRole.Button, new() { Name = "Remove Invert" }).ClickAsync();
        await Expect(one.Locator(".problem").First).ToContainTextAsync("was changed meanwhile");
        using (var library = Library.Open(desk.Library, LibraryAccess.Read))
            Assert.Equal("swap", Assert.Single(TreatmentShelf.OfTake(library, desk.Noise)!.Steps).Kind.Name);
        await one.Context.CloseAsync();
        await two.Context.CloseAsync();
    }

    private async Task<IPage> OpenAsync(TakeId take)
    {
        var page = await desk.PageAsync();
        await page.GotoAsync($"{desk.Address}/shape/treat?session={desk.SessionOf(take).Value}&take={take.Value}");
        await DemoDesk.LiveAsync(page);
        return page;
    }

    private static async Task AddAsync(IPage page, string kind)
    {
        var before = await page.Locator(".step").CountAsync();
        await page.Locator("[data-key=k]").SelectOptionAsync(kind);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await Expect(page.Locator(".step")).ToHaveCountAsync(before + 1);
    }

    private void Set(TakeId take, string name, TreatmentStep step)
    {
        using var library = Library.Open(desk.Library, LibraryAccess.Write);
        new TreatmentsJob().Set(desk.Library, (TreatmentScope.Take, take.Value), (library.GetTreatment(TreatmentScope.Take, take.Value)?.Json, new() { Name = name, Steps = [step] }), name);
    }

    private static async Task<double[]> EarsAsync(IPage page) => JsonSerializer.Deserialize<double[]>(await page.EvaluateAsync<string>(ReadEars))!;
}
