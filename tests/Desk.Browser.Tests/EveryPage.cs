using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Athwart.Desk.Browser.Tests;

/// <summary>Every page of the desk with something on it, and how one gets there.</summary>
internal static class EveryPage
{
    /// <summary>The names of the pages, in the order of the day.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [
        "plan", "choose", "kit", "take-in", "takes", "take", "shape", "found", "treat", "deliver", "deliveries", "delivery", "find", "live", "help", "light", "worklist", "nowhere",
    ];

    /// <summary>Opens a page by name.</summary>
    public static async Task OpenAsync(DemoDesk desk, IPage page, string name)
    {
        switch (name)
        {
            case "plan" or "takes" or "deliver" or "deliveries" or "live":
                await desk.GoAsync(page, "/" + name);
                break;
            case "choose" or "kit":
                await desk.GoAsync(page, "/plan/" + name);
                break;
            case "take-in":
                await desk.GoAsync(page, "/take-in");
                await page.Locator(".folders .folder").First.ClickAsync();
                await Expect(page.Locator(".card-table tbody tr").First).ToBeVisibleAsync();
                break;
            case "take":
                await desk.GoAsync(page, "/takes/" + desk.Take("LOCK-T03").Id);
                await page.WaitForSelectorAsync(".take-view[data-ready]");
                await page.FocusAsync("[data-part=stage]");
                await page.Keyboard.PressAsync("f");
                break;
            case "shape":
                await desk.GoAsync(page, "/shape?take=" + desk.Take("LOCK-T08").Id);
                await page.Locator(".cut-list button").First.ClickAsync();
                await Expect(page.Locator(".cutting .strip")).ToBeVisibleAsync();
                break;
            case "found":
                await FoundAsync(desk, page);
                break;
            case "treat":
                await TreatAsync(desk, page);
                break;
            case "delivery":
                await desk.GoAsync(page, "/deliveries");
                await page.Locator(".cut-list a").Last.ClickAsync();
                await Expect(page.FrameLocator("iframe.report").Locator("h1").First).ToBeVisibleAsync();
                break;
            case "find":
                await desk.GoAsync(page, "/find");
                await page.GetByRole(AriaRole.Searchbox).PressSequentiallyAsync("lock");
                await Expect(page.Locator(".hits audio").First).ToBeVisibleAsync();
                break;
            case "help" or "light":
                await desk.GoAsync(page, "/plan");
                await page.Locator($"[data-opens={name}]").ClickAsync();
                await Expect(page.Locator("#" + name)).ToBeVisibleAsync();
                break;
            case "worklist":
                await desk.GoAsync(page, "/takes");
                await page.Locator(".tray summary").ClickAsync();
                break;
            default:
                await page.GotoAsync(desk.Address + "/nowhere");
                break;
        }

        if (name is "takes" or "worklist")
            await Sound.SoundDesk.UntilAsync(page, "document.querySelectorAll('.take .strip').length >= 6");
        await page.WaitForTimeoutAsync(700);
    }

    private static async Task FoundAsync(DemoDesk desk, IPage page)
    {
        await desk.GoAsync(page, "/shape/found");
        if (await page.Locator(".found-table").CountAsync() == 0)
        {
            await page.GetByRole(AriaRole.Button, new() { Name = "Find the cuts" }).ClickAsync();
        }

        await Expect(page.Locator(".found-table tbody tr").First).ToBeVisibleAsync(new() { Timeout = 120_000 });
    }

    private static async Task TreatAsync(DemoDesk desk, IPage page)
    {
        await desk.GoAsync(page, "/shape/treat?take=" + desk.Take("LOCK-T03").Id);
        if (await page.Locator(".step").CountAsync() == 0)
        {
            await page.Locator("[data-key=g]").SelectOptionAsync("Pass-by");
            await page.GetByRole(AriaRole.Button, new() { Name = "Apply here" }).ClickAsync();
            await page.GetByRole(AriaRole.Button, new() { Name = "Listen and propose" }).ClickAsync();
        }

        await Expect(page.Locator(".step")).ToHaveCountAsync(3);
        await Expect(page.Locator(".proposal-list li").First).ToBeVisibleAsync();
        await Expect(page.Locator(".step .response svg").First).ToBeVisibleAsync();
        await Expect(page.Locator(".view table tbody tr")).ToHaveCountAsync(4, new() { Timeout = 120_000 });
    }
}
